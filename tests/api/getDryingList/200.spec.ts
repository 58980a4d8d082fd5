import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

test('what hangs in a room that is too damp is shown as not drying, without a time that nobody can keep', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  const list = async () => (await bench.network.get(`/v1/sites/${bench.incident.site()}/drying-list`).expect(200)).body;
  expect((await list()).hanging).toMatchObject([{ itemId: quilt.id, dries: true, place: { code: 'R1' } }]);
  await bench.network.post(`/v1/incidents/${bench.incident.id}/drying-rooms/${bench.incident.room('ROOM')}/readings`, { airTempC: 20, relativeHumidityPct: 84, measuredAt: '2026-05-09T06:59:00Z' }).expect(201);
  expect((await list()).hanging).toMatchObject([{ itemId: quilt.id, dries: false, earliestDryAt: null, latestDryAt: null }]);
  expect((await list()).standing).toMatch(/[Tt]ouch and weigh/);
});
