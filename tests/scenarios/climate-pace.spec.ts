/** When air is reckoned again goes by the periods that the process was started with. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { CLIMATE_GATHER_MS, changeSensor, runClimate } from '#application';
import { newId } from '#platform';
import { readRoom } from '../api/support/air.js';
import { sensor } from '../api/support/climate.js';
import { Workbench } from '../api/support/workbench.js';
import { workerContextOf } from '../unit/plan-problem/support/runs.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const env = (pace: { climateTickMs?: number; climateGatherMs?: number }) => ({ nowMs: bench.server.clock.nowMs(), newId: () => newId(), ...pace });

/** Seconds from now until the row of the room is out. */
async function ahead(kind: 'climate.readings' | 'climate.tick'): Promise<{ id: string; seconds: number }> {
  const { rows } = await bench.server.admin.query<{ id: string; seconds: string }>(
    `select id, extract(epoch from coalesce(not_before, leased_until) - clock_timestamp()) as seconds from outbox where network_id = $1 and kind = $2 and subject_id = $3 and done_at is null`,
    [bench.network.networkId, kind, bench.incident.room('ROOM')],
  );
  expect(rows).toHaveLength(1);
  return { id: rows[0]!.id, seconds: Number(rows[0]!.seconds) };
}

test('a ring waits for company as long as the API was told to, and the next look comes when the worker was told to', async () => {
  const sensorId = await sensor(bench.network, bench.incident);
  const context = workerContextOf(bench.network);
  const change = { incidentId: bench.incident.id, sensorId, expectedVersion: 1, expectedEveryMinutes: 10 };
  await bench.server.unitOfWork.write(context, (stores) => changeSensor(stores, { context, env: env({ climateGatherMs: 90_000 }) }, change));
  const ring = await ahead('climate.readings');
  expect(ring.seconds).toBeGreaterThan(60);
  expect(ring.seconds).toBeLessThanOrEqual(90);
  await readRoom(bench.network, bench.incident, new Date(bench.server.clock.nowMs() - 60_000).toISOString(), 60);
  // One that waits takes this in: it is the same row.
  expect((await ahead('climate.readings')).id).toBe(ring.id);
  const message = { id: ring.id, incidentId: bench.incident.id, kind: 'climate.readings' as const, subjectId: bench.incident.room('ROOM'), traceparent: '' };
  expect(await runClimate(bench.server.unitOfWork, message, context, env({ climateTickMs: 120_000 }))).toBe('stored');
  const tick = await ahead('climate.tick');
  expect(tick.seconds).toBeGreaterThan(90);
  expect(tick.seconds).toBeLessThanOrEqual(120);
});

test('where nobody has said, a ring waits as long as the use cases say', async () => {
  await readRoom(bench.network, bench.incident, new Date(bench.server.clock.nowMs()).toISOString(), 61);
  const { seconds } = await ahead('climate.readings');
  expect(seconds).toBeLessThanOrEqual(CLIMATE_GATHER_MS / 1_000);
});
