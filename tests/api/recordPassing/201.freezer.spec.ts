import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

/** A lot that takes more than half of the freezer of the small incident (300 L). */
const LOT = { count: 6, description: 'Six quilts, bagged' };

const taken = async () => (await bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`).expect(200)).body.places.find((fill: { kind: string }) => fill.kind === 'freezer').taken as number;

test('what was put straight into a freezer counts once when `frozen` confirms it there', async () => {
  const household = await bench.household();
  const lot = await bench.takeIn(household, { ...LOT, to: bench.freezer() });
  const volumeL = Number(lot['freezerVolumeL']);
  expect(volumeL).toBeGreaterThan(150);
  await bench.pass(lot.id, 'frozen', bench.freezer());
  expect(await bench.read(lot.id)).toMatchObject({ stage: 'held-frozen', keeper: bench.freezer() });
  expect(await taken()).toBe(volumeL);
  const second = await bench.takeIn(household, LOT);
  const refused = await bench.network.post(`/v1/items/${second.id}/custody-events`, { kind: 'frozen', from: second.keeper, to: bench.freezer() }).expect(409);
  expect(refused.body).toMatchObject({ code: 'capacity_full', free: 300 - volumeL, wanted: volumeL, unit: 'L' });
});
