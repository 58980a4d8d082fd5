import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { elementsOf, pictureOf, type ChartedBar } from '../support/plan-charts.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
const shirts: string[] = [];
beforeAll(async () => {
  bench = await Workbench.open(withBenches);
  const household = await bench.household();
  for (let i = 0; i < 3; i += 1) {
    const { id } = await bench.takeIn(household, { materialClass: 'textile-garment-3d', sizeClass: 'garment' });
    await bench.assess(id).expect(201);
    await bench.network.post(`/v1/items/${id}/colour-tests`, { personId: bench.incident.person('P2'), tests: [{ colour: 'white', solution: 'water', method: 'swab', reading: 'no-transfer' }], allColoursTested: true }).expect(201);
    shirts.push(id);
  }
  await planNow(bench.server, bench.network, bench.incident);
});
afterAll(() => bench.close());

test('things that share a bath are one bar that holds them all, and one box in the picture', async () => {
  const shared = (await assignmentsOf(bench.network, bench.incident)).filter(({ step, batchId }) => step === 'rinse' && batchId !== null);
  expect(shared.length).toBeGreaterThan(1);
  const path = `/v1/stations/${bench.incident.station('RINSE')}/plan-chart`;
  const bars = (await bench.network.get(`${path}?hours=24`).expect(200)).body.bars as ChartedBar[];
  for (const batchId of new Set(shared.map((one) => one.batchId))) {
    const own = bars.filter((bar) => bar.batchId === batchId);
    expect(own).toHaveLength(1);
    expect(own[0]!.items.map(({ itemId }) => itemId).sort()).toEqual(shared.filter((one) => one.batchId === batchId).map(({ itemId }) => itemId).sort());
  }
  const together = bars.find(({ items }) => items.length > 1)!;
  const titles = elementsOf(await pictureOf(bench.network, `${path}/plot?hours=24`)).filter(({ name }) => name === 'title').map(({ text }) => text);
  expect(titles.slice(1)).toHaveLength(bars.length);
  expect(titles.some((title) => title.includes(`and ${together.items.length - 1} more`))).toBe(true);
});
