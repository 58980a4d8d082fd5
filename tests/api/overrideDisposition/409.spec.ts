import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const choose = (itemId: string, disposition: string) =>
  bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition, reason: 'The tables are full until noon.', personId: bench.incident.person('P1') });

test('an owner\'s no to freezing is not for a lead to lift', async () => {
  const household = await bench.household([{ scope: 'treat', given: true, manner: 'spoken' }, { scope: 'freeze', given: false, manner: 'written' }]);
  const quilt = await bench.assessedQuilt(household);
  expect((await choose(quilt.id, 'hold-frozen').expect(409)).body).toMatchObject({ code: 'consent_missing', scope: 'freeze' });
});

test('nothing is chosen for release on silence, only on the owner\'s recorded yes', async () => {
  const household = await bench.household();
  const toy = await bench.takeIn(household, { materialClass: 'textile-stuffed', sizeClass: 'garment', significance: 'everyday' });
  const before = await recordOf(bench, toy.id);
  expect((await choose(toy.id, 'release').expect(409)).body).toMatchObject({ code: 'consent_missing', scope: 'release' });
  expect(await recordOf(bench, toy.id)).toEqual(before);
  await bench.network.post(`/v1/households/${household.id}/consents`, { itemId: toy.id, scope: 'release', given: true, manner: 'written' }).expect(201);
  expect((await choose(toy.id, 'release').expect(201)).body).toMatchObject({ disposition: 'release', waitingForOwner: false });
});
