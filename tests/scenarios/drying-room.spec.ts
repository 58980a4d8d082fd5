/** A dehumidifier trips at 14:00 and the room goes from 62 % to 84 %: readings by the API, the work by a real worker, the alarms by people. */
import { mkdtemp, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { createLogger, loadConfig } from '#platform';
import { createEmptyDatabase, TEST_MASTER_KEY } from '#testing';
import { composeWork } from '../../apps/worker/src/handlers.js';
import { startWorker, type RunningWorker } from '../../apps/worker/src/start-worker.js';
import { alarmsOf, readRoom } from '../api/support/air.js';
import { Workbench } from '../api/support/workbench.js';
import { until } from '../faults/messaging.harness.js';

let bench: Workbench;
let queue: Awaited<ReturnType<typeof createEmptyDatabase>>;
let folder: string;
let clockFile: string;
let workers: RunningWorker[] = [];

beforeAll(async () => {
  bench = await Workbench.open();
  queue = await createEmptyDatabase();
  folder = await mkdtemp(join(tmpdir(), 'wl-clock-'));
  clockFile = join(folder, 'now');
  await at('2026-05-09T07:00:00Z');
  const config = {
    ...loadConfig({ WRACKLINE_LOG: 'warn', WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, DATABASE_URL: bench.server.database.appUrl, DATABASE_RELAY_URL: bench.server.database.relayUrl, QUEUE_DATABASE_URL: queue.url }), clockFile, planIterations: 5,
  };
  // Two of them, so that every reckoning may run beside another.
  for (const name of ['one', 'two']) {
    const worker = await startWorker(config, createLogger(name, 'silent'), composeWork, { tuning: { pollMs: 50 } });
    await worker.ready;
    workers.push(worker);
  }
});
afterAll(async () => {
  await Promise.all(workers.map((worker) => worker.stop()));
  workers = [];
  await bench.close();
  await queue.drop();
  await rm(folder, { recursive: true, force: true });
});

let written = 0;

/** Sets the time of the API and of the workers; a file that is written twice within a tick of its time stamp would be missed. */
async function at(moment: string): Promise<void> {
  bench.server.clock.set(Date.parse(moment));
  await writeFile(clockFile, String(Date.parse(moment)));
  written += 1;
  await utimes(clockFile, written, written);
}

/** Everything that was rung for about air is done, looks ahead of time aside. */
async function settled(): Promise<void> {
  await until('the air is reckoned', async () => {
    const { rows } = await bench.server.admin.query<{ n: number }>("select count(*)::int as n from outbox where kind = 'climate.readings' and done_at is null");
    return rows[0]?.n === 0;
  });
}

const kinds = async (query = '') => (await alarmsOf(bench.network, bench.incident, query)).map(({ kind }) => kind).sort();
const roomState = async () => (await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/climate`).expect(200)).body;
const machine = (state: string, version: number) => bench.network.patch(`/v1/incidents/${bench.incident.id}/dehumidifiers/${bench.incident.dehumidifier('D1')}`, { state }, { 'if-match': `"${version}"` }).expect(200);

test('readings, alarms raised once, a person, the machine back, and the readings clear them', async () => {
  const household = await bench.household();
  for (let i = 0; i < 4; i += 1) {
    const quilt = await bench.testedQuilt(household);
    for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
    await bench.hang(quilt.id);
  }
  for (let hour = 7; hour < 14; hour += 1) {
    await at(`2026-05-09T${String(hour).padStart(2, '0')}:45:00Z`);
    for (const minute of ['00', '15', '30', '45']) await readRoom(bench.network, bench.incident, `2026-05-09T${String(hour).padStart(2, '0')}:${minute}:00Z`, 62);
  }
  await settled();
  expect((await roomState()).climate).toMatchObject({ asOf: '2026-05-09T13:45:00.000Z', relativeHumidityPct: 62, state: 'below-cap', things: 4, machinesRunning: 1 });
  expect(await kinds()).toEqual([]);

  // 14:00: it trips, and nobody has seen it yet. The room climbs.
  for (const [time, humidity] of [['14:00', 62], ['14:15', 66], ['14:30', 71], ['14:45', 76], ['15:00', 80], ['15:15', 82.5], ['15:30', 84]] as const) {
    await at(`2026-05-09T${time}:30Z`);
    await readRoom(bench.network, bench.incident, `2026-05-09T${time}:00Z`, humidity);
    await settled();
  }
  expect(await kinds()).toEqual(['dehumidifier-short', 'room-mould-possible', 'room-over-cap']);
  const raised = await alarmsOf(bench.network, bench.incident);
  const cap = raised.find(({ kind }) => kind === 'room-over-cap')!;
  expect(cap).toMatchObject({ severity: 'warning', subject: { kind: 'drying-room', code: 'ROOM' }, what: 'Drying room: the air is at 84 %, above its cap of 75 %.', numbers: { relativeHumidityPct: 84, capPct: 75 }, acknowledged: null });
  expect(raised.find(({ kind }) => kind === 'room-mould-possible')).toMatchObject({ severity: 'danger' });
  for (const { cautions } of raised) expect(cautions.join(' ')).toMatch(/licensed electrician/);
  expect((await roomState()).climate).toMatchObject({ state: 'mould-possible', peak: { relativeHumidityPct: expect.any(Number) } });

  // Somebody sees it, by name; it stays open. A second word does not stand.
  const seen = { personId: bench.incident.person('P1'), note: 'The electrician is on the way.' };
  await bench.network.post(`/v1/alarms/${cap.id}/acknowledgements`, seen).expect(201);
  await bench.network.post(`/v1/alarms/${cap.id}/acknowledgements`, { personId: bench.incident.person('P3') }).expect(409);
  await machine('tripped', 1);
  await at('2026-05-09T16:00:30Z');
  await readRoom(bench.network, bench.incident, '2026-05-09T16:00:00Z', 84);
  await settled();
  // Recorded as tripped it is no longer a machine that falls short.
  expect(await kinds()).toEqual(['dehumidifier-stopped', 'room-mould-possible', 'room-over-cap']);
  expect((await alarmsOf(bench.network, bench.incident)).find(({ id }) => id === cap.id)).toMatchObject({ acknowledged: { by: seen.personId, byName: 'Lead one', note: seen.note } });

  // It runs again, and the room comes down: at the cap nothing clears yet, below it everything does.
  await machine('running', 2);
  await at('2026-05-09T17:00:30Z');
  await readRoom(bench.network, bench.incident, '2026-05-09T17:00:00Z', 74);
  await settled();
  expect(await kinds()).toEqual(['room-over-cap']);
  await at('2026-05-09T18:00:30Z');
  await readRoom(bench.network, bench.incident, '2026-05-09T18:00:00Z', 66);
  await settled();
  expect(await kinds()).toEqual([]);
  expect(await kinds('?state=cleared')).toEqual(['dehumidifier-short', 'dehumidifier-stopped', 'room-mould-possible', 'room-over-cap']);

  // The next time is a new alarm, and nobody has seen it.
  await at('2026-05-09T19:00:30Z');
  await readRoom(bench.network, bench.incident, '2026-05-09T19:00:00Z', 78);
  await settled();
  const again = await alarmsOf(bench.network, bench.incident);
  expect(again).toMatchObject([{ kind: 'room-over-cap', acknowledged: null }]);
  expect(again[0]!.id).not.toBe(cap.id);
}, 240_000);
