import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { assignmentsOf, planNow } from '../../unit/plan-problem/support/runs.js';
import { after, plannedWorld, type PlannedWorld } from '../support/plan-charts.js';

let world: PlannedWorld;
beforeAll(async () => { world = await plannedWorld(6); });
afterAll(() => world.bench.close());

const progress = async (query = '', language = 'en') => (await world.bench.network.get(`/v1/incidents/${world.bench.incident.id}/plan-progress${query}`, { 'accept-language': language }).expect(200)).body;

test('before anything is done, what was due has not come yet, and nothing is followed', async () => {
  const { bench, rinses } = world;
  bench.server.clock.set(after(rinses[1]!.startsAt, 1));
  const body = await progress();
  const all = await assignmentsOf(bench.network, bench.incident);
  const due = all.filter(({ startsAt }) => Date.parse(startsAt) <= bench.server.clock.nowMs()).length;
  expect(due).toBeGreaterThan(1);
  expect(body).toMatchObject({ incidentId: bench.incident.id, toleranceMinutes: 15, inForce: { revision: { number: 1 }, since: '2026-05-09T07:00:00.000Z', starts: { due, onTime: 0, late: 0, startUnknown: 0, notYet: due, dropped: 0, delayMinutes: null }, durations: [], ways: { followed: 0, otherWay: 0 } } });
  expect(body.inForce.promises).toMatchObject({ revisionNumber: 1, inTime: { items: 0 }, late: { items: 0 }, overdue: { items: 0 } });
  expect(body.inForce.promises.promised).toEqual(body.inForce.promises.open);
  expect(body.inForce.promises.promised.items).toBe(6);
});

test('beginnings in time and late, delays, minutes and ways are those that were reported', async () => {
  const { bench, quilts, rinses } = world;
  // In time and as long as planned; 40 minutes late and twice as long; begun, still in work.
  const planned = (i: number) => Date.parse(rinses[i]!.endsAt) - Date.parse(rinses[i]!.startsAt);
  const late = after(rinses[1]!.startsAt, 40);
  bench.server.clock.set(Math.max(late + 2 * planned(1), Date.parse(rinses[0]!.endsAt)) + 60_000);
  await bench.report(quilts[0]!, 'rinse', 'done', { startedAt: rinses[0]!.startsAt, finishedAt: rinses[0]!.endsAt }).expect(201);
  await bench.report(quilts[1]!, 'rinse', 'done', { startedAt: new Date(late).toISOString(), finishedAt: new Date(late + 2 * planned(1)).toISOString() }).expect(201);
  const { inForce } = await progress();
  expect(inForce.starts).toMatchObject({ onTime: 1, late: 1, startUnknown: 0 });
  expect(inForce.starts.due).toBe(inForce.starts.notYet + 2);
  expect(inForce.starts.delayMinutes).toEqual({ median: 20, p80: 32, of: 2 });
  const minutes = [planned(0), planned(1)].map((ms) => ms / 60_000) as [number, number];
  expect(inForce.durations).toEqual([{ step: 'rinse', steps: 2, plannedMinutes: minutes[0] + minutes[1], actualMinutes: minutes[0] + 2 * minutes[1], plannedMedianMinutes: (minutes[0] + minutes[1]) / 2, actualMedianMinutes: (minutes[0] + 2 * minutes[1]) / 2 }]);
  expect(inForce.ways).toEqual({ followed: 2, otherWay: 0, notBegun: 4 });
  expect(inForce.inWords.join(' ')).toContain('Half of what began did so at most 20 minutes after it was planned, four fifths at most 32 minutes.');
  // Who allows 40 minutes finds both in time.
  expect((await progress('?toleranceMinutes=40')).inForce.starts).toMatchObject({ onTime: 2, late: 0 });
});

test('a finding that sends a thing another way is told as such, and what is hung is safe in time', async () => {
  const { bench, quilts } = world;
  await bench.report(quilts[2]!, 'rinse', 'dye-moved').expect(201);
  await bench.report(quilts[0]!, 'blot').expect(201);
  await bench.hang(quilts[0]!);
  const { inForce } = await progress();
  const now = (await bench.read(quilts[2]!)) as unknown as { disposition: string };
  const [assignment] = (await assignmentsOf(bench.network, bench.incident, `&itemId=${quilts[2]!}`));
  expect(inForce.ways.otherWay).toBe(now.disposition === assignment!.disposition ? 0 : 1);
  expect(inForce.ways.followed + inForce.ways.otherWay).toBe(3);
  expect(inForce.promises).toMatchObject({ promised: { items: 6 }, inTime: { items: 1 }, late: { items: 0 }, open: { items: 5 } });
});

test('what became safe after the deadline that the plan reckoned with is late, and what is open after it is overdue', async () => {
  const { bench } = world;
  const nowMs = bench.server.clock.nowMs();
  const { rows: [hung] } = await bench.server.admin.query<{ stabilised_at: Date }>('select stabilised_at from item where id = $1', [world.quilts[0]!]);
  bench.server.clock.set(nowMs + 30 * 24 * 3_600_000);
  expect((await progress()).inForce.promises).toMatchObject({ inTime: { items: 1 }, open: { items: 5 }, overdue: { items: 5 } });
  await bench.server.admin.query("update item set stabilised_at = stabilised_at + interval '20 days' where id = $1", [world.quilts[0]!]);
  expect((await progress()).inForce.promises).toMatchObject({ inTime: { items: 0 }, late: { items: 1 } });
  await bench.server.admin.query('update item set stabilised_at = $2 where id = $1', [world.quilts[0]!, hung!.stabilised_at]);
  bench.server.clock.set(nowMs);
});

test('planning anew hides no delay: the day counts each step by the first moment for which it was planned', async () => {
  const { bench, quilts, rinses } = world;
  const before = (await progress()).lastDay;
  expect(before).toMatchObject({ isCutShort: true, revisionNumbers: [1], promises: { revisionNumber: 1 } });
  await planNow(bench.server, bench.network, bench.incident);
  const waiting = quilts[3]!;
  expect((await assignmentsOf(bench.network, bench.incident, `&itemId=${waiting}`)).find(({ step }) => step === 'rinse')!.startsAt >= rinses[3]!.startsAt).toBe(true);
  const { inForce, lastDay } = await progress();
  expect(lastDay).toMatchObject({ revisionNumbers: [1, 2], promises: { revisionNumber: 1 } });
  expect(inForce.revision.number).toBe(2);
  // What the new plan has just begun with is not overdue by it, and still is by the day.
  expect(lastDay.starts.due).toBeGreaterThanOrEqual(before.starts.due);
  expect(lastDay.starts).toMatchObject({ onTime: before.starts.onTime, late: before.starts.late, delayMinutes: before.starts.delayMinutes });
});

test('only plans whose detail is kept count, and it says since when', async () => {
  const { bench } = world;
  for (let i = 0; i < 5; i += 1) {
    bench.server.clock.set(bench.server.clock.nowMs() + 60_000);
    await planNow(bench.server, bench.network, bench.incident);
  }
  const { lastDay } = await progress();
  expect(lastDay).toMatchObject({ isCutShort: true, revisionNumbers: [3, 4, 5, 6, 7], promises: { revisionNumber: 3 } });
  const { rows: [third] } = await bench.server.admin.query<{ published_at: Date }>('select published_at from plan_revision where incident_id = $1 and number = 3', [bench.incident.id]);
  expect(lastDay.since).toBe(third!.published_at.toISOString());
  expect(lastDay.inWords[0]).toMatch(/^The detail of older plans is not kept/);
});

test('a day later it is the last 24 hours, and it is said in Spanish', async () => {
  const { bench } = world;
  bench.server.clock.set(bench.server.clock.nowMs() + 30 * 3_600_000);
  const { lastDay, at } = await progress('', 'es');
  expect(lastDay.isCutShort).toBe(false);
  expect(Date.parse(at) - Date.parse(lastDay.since)).toBe(24 * 3_600_000);
  expect(lastDay.inWords[0]).toMatch(/^Las últimas 24 horas/);
});
