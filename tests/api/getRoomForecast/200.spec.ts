import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const forecast = async () => (await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/forecast`).expect(200)).body;

test('before the first reckoning there are no points; then 72 hours, with the weather that is foreseen', async () => {
  expect(await forecast()).toMatchObject({ from: null, to: null, peak: null, points: [] });
  bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z'));
  await bench.network.post(`/v1/incidents/${bench.incident.id}/sites/${bench.incident.site()}/weather`, {
    source: 'Valley weather desk', kind: 'forecast', issuedAt: '2026-05-09T07:30:00Z', records: [{ validAt: '2026-05-10T12:00:00Z', airTempC: 8, relativeHumidityPct: 60 }],
  }).expect(200);
  await readRoom(bench.network, bench.incident, '2026-05-09T08:00:00Z', 62);
  await reckonAir(bench.server, bench.network);
  const { from, to, points, peak } = await forecast();
  expect([from, to]).toEqual(['2026-05-09T08:00:00.000Z', '2026-05-12T08:00:00.000Z']);
  expect(points).toHaveLength(72);
  expect(points[0]).toMatchObject({ at: '2026-05-09T09:00:00.000Z', airTempC: 20 });
  expect(Math.max(...points.map((point: { relativeHumidityPct: number }) => point.relativeHumidityPct))).toBeLessThanOrEqual(peak.relativeHumidityPct);
  // Outdoors it is damp now and dry from noon of the next day on: what outdoor air brings in turns into what it takes away.
  const outdoors = (at: string) => points.find((point: { at: string }) => point.at === at).outdoorAirKgPerH;
  expect(outdoors('2026-05-09T12:00:00.000Z')).toBeLessThan(0);
  expect(outdoors('2026-05-10T15:00:00.000Z')).toBeGreaterThan(0);
});
