import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { giveUpRetentionLook, runRetentionLook, type OutboxMessage } from '#application';
import { workerContext } from '#messaging';
import { newId } from '#platform';
import { setNumber } from '../setCalibration/calibration.support.js';
import { preview, start, workRun } from '../startRetention/retention.support.js';
import { Workbench } from '../support/workbench.js';

const DAY_MS = 24 * 3_600_000;
/** Nights on which the test looks; the schedule is daily at three. */
const NIGHT_MS = Date.parse('2026-05-09T03:10:00Z');

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

interface Run { id: string; state: string; startedBy: string; personId: string | null; asOf: string; gone: object; touched: number; erased: number; policy: { schedule: object | null } }
const runs = async (incidentId = bench.incident.id) => (await bench.network.get(`/v1/incidents/${incidentId}/retention-runs?limit=200`).expect(200)).body.items as Run[];
const atNight = (day: number) => bench.server.clock.set(NIGHT_MS + day * DAY_MS);
const set = async (key: string, value: number | null) => expect([key, (await setNumber(bench, `retention/${key}`, value)).status]).toEqual([key, 200]);
const looks = async (incidentId = bench.incident.id) => (await bench.server.admin.query<{ id: string; ahead_s: number }>("select id, extract(epoch from not_before - clock_timestamp())::float8 as ahead_s from outbox where kind = 'retention.look' and subject_id = $1 and done_at is null and dead_at is null", [incidentId])).rows;
const look = (id: string, incidentId = bench.incident.id) => runRetentionLook(bench.server.unitOfWork, messageOf(id, incidentId), workerContext(bench.network.networkId, 'test', ''), { nowMs: bench.server.clock.nowMs(), newId: () => newId() });
const messageOf = (id: string, incidentId: string): OutboxMessage => ({ id, incidentId, kind: 'retention.look', subjectId: incidentId, traceparent: '' });
async function lookNow() {
  const [open] = await looks();
  return look(open?.id ?? '');
}
async function home(): Promise<string> {
  const household = await bench.household();
  await bench.handBack(household, [(await bench.takeIn(household, { familyWords: 'Sewn by an aunt' })).id]).expect(201);
  return household.id;
}

test('is off until a network chooses it: nothing lies in the outbox, and the dry run names no schedule', async () => {
  expect(await looks()).toEqual([]);
  expect((await preview(bench)).policy).toMatchObject({ schedule: null });
  await set('scheduleHour', 3);
  expect(await looks()).toEqual([]);
});

test('once chosen, every incident has one look, at the next such hour; another hour moves it, and a new incident joins', async () => {
  bench.server.clock.set(Date.parse('2026-05-09T01:00:00Z'));
  await set('scheduleEveryDays', 1);
  expect((await looks()).map(({ ahead_s }) => Math.round(ahead_s / 1_800))).toEqual([4]);
  await set('scheduleHour', 6);
  expect((await looks()).map(({ ahead_s }) => Math.round(ahead_s / 1_800))).toEqual([10]);
  await set('scheduleHour', 3);
  const second = await bench.network.incident();
  const [first] = await looks(second.id);
  expect(await look(first?.id ?? '', second.id)).toBe('not-its-hour');
  expect((await looks(second.id)).map(({ ahead_s }) => Math.round(ahead_s / 1_800))).toEqual([4]);
  const other = await bench.server.network();
  expect(await looks((await other.incident()).id)).toEqual([]);
});

test('in its hour it starts exactly what the dry run of that moment shows, in nobody\'s name; what the law holds stays', async () => {
  const [gone, held] = [await home(), await home()];
  await bench.network.post(`/v1/households/${held}/legal-holds`, { personId: bench.incident.person('P1'), reason: 'A court asked.' }).expect(201);
  await set('countFromClosing', 0);
  atNight(1);
  expect(await lookNow()).toBe('nothing-due');
  expect(await runs()).toEqual([]);
  atNight(800);
  const before = await preview(bench);
  expect([before.totals.erased, before.policy]).toEqual([1, expect.objectContaining({ schedule: { everyDays: 1, hour: 3 } })]);
  expect(await lookNow()).toBe('started');
  const [run] = await runs();
  expect(run).toMatchObject({ state: 'running', startedBy: 'schedule', personId: null, asOf: new Date(NIGHT_MS + 800 * DAY_MS).toISOString(), policy: { schedule: { everyDays: 1, hour: 3 } } });
  expect(await lookNow()).toBe('nothing-due');
  expect(await workRun(bench, run?.id ?? '')).toBe('done');
  expect(await runs()).toEqual([expect.objectContaining({ state: 'done', gone: before.totals.going, touched: before.totals.touched, erased: 1 })]);
  expect((await bench.network.get(`/v1/households/${gone}`).expect(200)).body.code).toBe(`erased-${gone}`);
  expect((await bench.network.get(`/v1/households/${held}`).expect(200)).body.contact).not.toBeNull();
  const { rows } = await bench.server.admin.query('select decided_by, reason from household_erasure');
  expect(rows).toEqual([{ decided_by: null, reason: 'retention-ended' }]);
});

test('one row looked at twice starts one run and leaves one look; given up, the next one comes all the same', async () => {
  await home();
  atNight(1_600);
  const [open] = await looks();
  const outcomes = await Promise.all([look(open?.id ?? ''), look(open?.id ?? '')]);
  expect(outcomes.sort()).toEqual(['overtaken', 'started']);
  expect([(await runs()).filter(({ state }) => state === 'running').length, (await looks()).length]).toEqual([1, 1]);
  const [next] = await looks();
  // Its tries are used up; it is marked dead after this.
  await bench.server.admin.query('update outbox set tries = 9 where id = $1', [next?.id]);
  await giveUpRetentionLook(bench.server.unitOfWork, messageOf(next?.id ?? '', bench.incident.id), workerContext(bench.network.networkId, 'test', ''), { nowMs: bench.server.clock.nowMs(), newId: () => newId() });
  await bench.server.admin.query("update outbox set dead_at = now(), dead_reason = 'test' where id = $1", [next?.id]);
  const after = await looks();
  expect([after.length, after[0]?.id === next?.id]).toEqual([1, false]);
});

test('every so many days, from the night on which it looked; a lead starts runs beside it', async () => {
  await set('scheduleEveryDays', 7);
  for (const { id } of (await runs()).filter(({ state }) => state === 'running')) await workRun(bench, id);
  atNight(1_607);
  await lookNow();
  expect((await looks()).map(({ ahead_s }) => Math.round(ahead_s / 3_600))).toEqual([7 * 24]);
  await start(bench, (await preview(bench)).policyRevision);
  expect((await runs())[0]).toMatchObject({ startedBy: 'person', personId: bench.incident.person('P1') });
});

test('switched off, the look that lies ahead ends without a run and without another', async () => {
  await home();
  await set('scheduleEveryDays', null);
  atNight(4_000);
  const before = (await runs()).length;
  expect(await lookNow()).toBe('off');
  expect([(await runs()).length, await looks()]).toEqual([before, []]);
});
