import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { giveUpSight, reviveRow, runSight, SIGHT_CALIBRATION, type SightOutcome } from '#application';
import { newId } from '#platform';
import { MORNING_MS, startTestServer, type TestServer } from '#testing';
import { workerContextOf } from '../../unit/plan-problem/support/runs.js';
import { alarmsOf } from '../support/air.js';
import { scanWorld } from '../support/scans.js';

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

const open = async () => (await server.admin.query<{ id: string; incident_id: string }>("select id, incident_id from outbox where network_id = $1 and kind = 'sight.look' and done_at is null and dead_at is null", [world.network.networkId])).rows;
/** What the worker does with the look that lies in the outbox, here in this thread. */
async function look(): Promise<SightOutcome> {
  const [row] = await open();
  if (!row) throw new Error('no look lies in the outbox');
  return runSight(server.unitOfWork, { id: row.id, incidentId: row.incident_id, kind: 'sight.look', subjectId: row.incident_id, traceparent: '' }, workerContextOf(world.network), { nowMs: server.clock.nowMs(), newId: () => newId() });
}
const alarms = (query = '') => alarmsOf(world.network, world.incident, `?kind=things-unseen${query}`);
const afterH = (hours: number) => server.clock.set(MORNING_MS + hours * 3_600_000);

test('one look of an incident lies ahead from the first intake on, however many come at once', async () => {
  expect(await open()).toEqual([]);
  await Promise.all(Array.from({ length: 6 }, () => world.item()));
  expect(await open()).toHaveLength(1);
  expect(await look()).toBe('looked');
  expect(await open()).toHaveLength(1);
  expect(await alarms()).toEqual([]);
});

test('things that nobody has met raise one alarm that is brought up to date, acknowledged by a person, and cleared by being met and by nothing else', async () => {
  afterH(SIGHT_CALIBRATION.unseenWaitingH.value + 1);
  await look();
  const [raised] = await alarms();
  expect(raised).toMatchObject({ severity: 'warning', subject: { kind: 'incident', id: world.incident.id, name: 'High water at Elmsford Reach' }, numbers: { items: 6, households: 1, oldestSeen: new Date(MORNING_MS).toISOString() } });
  expect(raised?.what).toBe('High water at Elmsford Reach: nobody has met 6 things for longer than is usual at this stage (1 household).');
  await world.network.post(`/v1/alarms/${raised?.id}/acknowledgements`, { personId: world.incident.person('P1'), note: 'Two people look.' });
  const tags = raised?.items.map(({ tag }) => tag) ?? [];
  await world.send(...tags.slice(0, 5).map((tag) => world.scan(tag, world.a)));
  await look();
  expect(await alarms()).toMatchObject([{ id: raised?.id, numbers: { items: 1 } }]);
  await world.send(world.scan(tags[5] ?? '', world.a));
  await look();
  expect(await alarms()).toEqual([]);
  expect(await alarms('&state=cleared')).toMatchObject([{ id: raised?.id }]);
});

test('a look whose tries are used up has a next one beside it before it is dead; when it is revived, the two become one again', async () => {
  const [row] = await open();
  const message = { id: row?.id ?? '', incidentId: world.incident.id, kind: 'sight.look' as const, subjectId: world.incident.id, traceparent: '' };
  const env = { nowMs: server.clock.nowMs(), newId: () => newId() };
  await server.admin.query('update outbox set tries = 8 where id = $1', [message.id]);
  await giveUpSight(server.unitOfWork, message, workerContextOf(world.network), env);
  expect((await open()).map(({ id }) => id === message.id).sort()).toEqual([false, true]);
  // The relay buries it. Whoever runs the service revives it: it is closed, as the next one lies ahead.
  await server.admin.query("update outbox set dead_at = now(), dead_reason = 'Every run of it failed.', leased_until = null where id = $1", [message.id]);
  const revived = () => server.unitOfWork.write(workerContextOf(world.network), (stores) => reviveRow(stores, message));
  expect([await revived(), await revived()]).toEqual(['comes-anyway', 'not-dead']);
  expect((await open()).map(({ id }) => id === message.id)).toEqual([false]);
  // Without a next one it is due again itself.
  const [next] = await open();
  await server.admin.query("update outbox set dead_at = now(), dead_reason = 'Every run of it failed.' where id = $1", [next?.id]);
  expect(await server.unitOfWork.write(workerContextOf(world.network), (stores) => reviveRow(stores, { ...message, id: next?.id ?? '' }))).toBe('to-be-done');
  expect((await open()).map(({ id }) => id)).toEqual([next?.id]);
});

test('a row that was done by another run changes nothing; in a closed incident nobody looks any more', async () => {
  const [row] = await open();
  const again = () => runSight(server.unitOfWork, { id: row?.id ?? '', incidentId: world.incident.id, kind: 'sight.look', subjectId: world.incident.id, traceparent: '' }, workerContextOf(world.network), { nowMs: server.clock.nowMs(), newId: () => newId() });
  expect((await Promise.all([again(), again()])).sort()).toEqual(['looked', 'overtaken']);
  expect(await open()).toHaveLength(1);
  await server.admin.query("update incident set state = 'closed' where id = $1", [world.incident.id]);
  expect(await look()).toBe('incident-closed');
  expect(await open()).toEqual([]);
});
