import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const choose = (itemId: string, disposition: string) =>
  bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition, reason: 'The tables are full until noon.', personId: bench.incident.person('P1') });

test('the choice stands through new triages, and ends when dye is seen to move', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await choose(quilt.id, 'hold-frozen').expect(201);
  await bench.assess(quilt.id, { onlyCopy: false }).expect(201);
  await bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'release', given: false, manner: 'spoken' }).expect(201);
  expect((await bench.network.get(`/v1/items/${quilt.id}/triage`)).body).toMatchObject({ disposition: 'hold-frozen', nextStep: 'wrap', override: { disposition: 'hold-frozen', reason: 'The tables are full until noon.' } });
  expect((await bench.report(quilt.id, 'wrap', 'dye-moved').expect(201)).body.item.disposition).toBe('refer');
  expect((await bench.network.get(`/v1/items/${quilt.id}/triage`)).body.override).toBeNull();
});

test('a choice made while the item lies frozen holds for the time after the thaw', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await choose(quilt.id, 'hold-frozen').expect(201);
  await bench.report(quilt.id, 'wrap').expect(201);
  await bench.report(quilt.id, 'freeze', 'done', { to: bench.freezer() }).expect(201);
  const chosen = await choose(quilt.id, 'treat').expect(201);
  expect(chosen.body).toMatchObject({ disposition: 'treat', nextStep: 'thaw' });
  const thawed = await bench.report(quilt.id, 'thaw').expect(201);
  expect(thawed.body.item).toMatchObject({ stage: 'waiting', disposition: 'treat', stabilisedAt: null });
  expect((await bench.network.get(`/v1/items/${quilt.id}/triage`)).body.override).toMatchObject({ disposition: 'treat' });
});
