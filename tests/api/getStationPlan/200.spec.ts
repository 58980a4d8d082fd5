import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { planNow } from '../../unit/plan-problem/support/runs.js';
import { after, plannedWorld, type ChartedBar, type PlannedWorld } from '../support/plan-charts.js';

let world: PlannedWorld;
beforeAll(async () => { world = await plannedWorld(5); });
afterAll(() => world.bench.close());

const chart = async (query = '?from=2026-05-09T07:00:00Z&hours=24', language = 'en') => (await world.bench.network.get(`/v1/stations/${world.bench.incident.station('RINSE')}/plan-chart${query}`, { 'accept-language': language }).expect(200)).body;
const barOf = (bars: ChartedBar[], itemId: string): ChartedBar => bars.find(({ items }) => items.some((item) => item.itemId === itemId))!;

test('it shows each piece of work that the plan in force gives the station, with its times, and two in a row never overlap', async () => {
  const body = await chart();
  expect(body).toMatchObject({ station: { code: 'RINSE' }, revision: { number: 1 }, detailKept: true, capacity: 2, from: '2026-05-09T07:00:00.000Z', to: '2026-05-10T07:00:00.000Z', leftOut: 0 });
  const bars = body.bars as ChartedBar[];
  expect(world.rinses.length).toBe(5);
  for (const { itemId, startsAt, endsAt } of world.rinses) expect(barOf(bars, itemId)).toMatchObject({ startsAt, endsAt, step: 'rinse', stepInWords: 'rinse', state: 'planned', origin: 'plan' });
  for (const [i, a] of bars.entries()) for (const b of bars.slice(i + 1)) if (a.lane === b.lane) expect(a.endsAt <= b.startsAt || b.endsAt <= a.startsAt).toBe(true);
  expect(body.lanes).toBe(2);
  expect(body.inWords).toEqual(['By plan 1.', `${bars.length} pieces of work are shown: 0 done, 0 in work, 0 late, ${bars.length} still to come.`]);
});

test('closed hours are those between the openings of the station', async () => {
  expect((await chart()).closed).toEqual([{ from: '2026-05-09T20:00:00.000Z', to: '2026-05-10T06:00:00.000Z' }]);
  // As far as the plan places work: three days.
  expect((await chart('?from=2026-05-10T12:00:00Z&hours=48')).closed).toEqual([{ from: '2026-05-10T20:00:00.000Z', to: '2026-05-12T07:00:00.000Z' }]);
});

test('what is done, in work, late and still to come is told apart by what was reported', async () => {
  const { bench, quilts: [first, second, third, fourth], rinses } = world;
  bench.server.clock.set(after(rinses[0]!.startsAt, 1));
  await bench.startAt(first!, 'RINSE');
  await bench.startAt(second!, 'RINSE');
  bench.server.clock.set(Math.max(after(rinses[1]!.endsAt, 1), after(rinses[2]!.startsAt, 16)));
  const startedAt = rinses[0]!.startsAt;
  await bench.report(first!, 'rinse', 'done', { startedAt }).expect(201);
  const bars = (await chart()).bars as ChartedBar[];
  expect(barOf(bars, first!)).toMatchObject({ state: 'done', items: [{ startedAt, finishedAt: new Date(bench.server.clock.nowMs()).toISOString() }] });
  expect(barOf(bars, second!)).toMatchObject({ state: 'in-work', items: [{ startedAt: new Date(after(rinses[0]!.startsAt, 1)).toISOString(), finishedAt: null }] });
  expect(barOf(bars, third!)).toMatchObject({ state: 'late' });
  const due = Date.parse(rinses[3]!.startsAt) + 15 * 60_000 < bench.server.clock.nowMs();
  expect(barOf(bars, fourth!)).toMatchObject({ state: due ? 'late' : 'planned' });
  // The same is not late for who allows an hour more.
  expect(barOf((await chart('?from=2026-05-09T07:00:00Z&hours=24&toleranceMinutes=240')).bars, third!)).toMatchObject({ state: 'planned' });
});

test('a thing that was begun elsewhere than planned is shown where it is, and what the next plan finds in hand too', async () => {
  const { bench, quilts } = world;
  const strange = quilts[3]!;
  const before = (await chart()).bars as ChartedBar[];
  await bench.startAt(strange, 'PACK');
  const there = (await bench.network.get(`/v1/stations/${bench.incident.station('PACK')}/plan-chart?hours=24`).expect(200)).body;
  expect(barOf(there.bars, strange)).toMatchObject({ origin: 'beside', state: 'in-work' });
  expect(there.inWords.join(' ')).toMatch(/1 is in work although the plan has it elsewhere/);
  expect(before.length).toBeGreaterThan(0);
  await planNow(bench.server, bench.network, bench.incident);
  const second = barOf((await chart()).bars, quilts[1]!);
  expect(second).toMatchObject({ origin: 'in-hand', state: 'in-work' });
  expect(second.items[0]!.startedAt).toBe(second.startsAt);
});

test('a time without work is empty, and it all is said in Spanish too', async () => {
  expect(await chart('?from=2026-05-01T00:00:00Z&hours=1')).toMatchObject({ bars: [], closed: [], from: '2026-05-01T00:00:00.000Z', to: '2026-05-01T01:00:00.000Z' });
  const spanish = await chart('?from=2026-05-09T07:00:00Z&hours=24', 'es');
  expect(spanish.inWords[0]).toMatch(/^Según el plan/);
  expect(spanish.bars[0].stepInWords).toBe('enjuagar');
});

test('without a plan only what is in work is shown', async () => {
  const incident = await world.bench.network.incident();
  expect((await world.bench.network.get(`/v1/stations/${incident.station('RINSE')}/plan-chart`).expect(200)).body).toMatchObject({ revision: null, detailKept: false, capacity: null, bars: [], lanes: 1, inWords: ['No plan is in force yet.', '0 pieces of work are shown: 0 done, 0 in work, 0 late, 0 still to come.'] });
});
