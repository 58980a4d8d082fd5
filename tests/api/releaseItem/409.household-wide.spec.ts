import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const release = (itemId: string) => bench.network.post(`/v1/items/${itemId}/releases`, { to: 'disposed', personId: bench.incident.person('P1') });
const say = (household: { id: string }, given: boolean, itemId: string | null = null) =>
  bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'release', given, manner: 'written', itemId }).expect(201);

// Rule `consent.release` of the rule book (own calibration): item by item, with the photograph kept.
test('a household that lets its things go in general has let go of none: the answer says to ask item by item', async () => {
  const household = await bench.household([{ scope: 'release', given: true, manner: 'spoken' }]);
  const shirt = await bench.takeIn(household);
  await say(household, true);
  const before = await recordOf(bench, shirt.id);
  const { body } = await release(shirt.id).expect(409);
  expect(body).toMatchObject({ code: 'consent_missing', scope: 'release' });
  expect(body.detail).toMatch(/item by item/);
  expect(body.detail).toContain('`itemId`');
  expect(await recordOf(bench, shirt.id)).toEqual(before);
  expect((await bench.network.get(`/v1/items/${shirt.id}/triage`).expect(200)).body.observed.consents.release).toBeNull();
  const consent = await say(household, true, shirt.id);
  await release(shirt.id).expect(201);
  expect(await bench.read(shirt.id)).toMatchObject({ stage: 'released', keeper: { kind: 'disposed', id: consent.body.id } });
});

test('a household that keeps all its things after that is obeyed, also about what it had let go one by one', async () => {
  const household = await bench.household();
  const [gone, kept] = [await bench.takeIn(household), await bench.takeIn(household)];
  await say(household, true, gone.id);
  await say(household, true, kept.id);
  await release(gone.id).expect(201);
  await say(household, false);
  const { body } = await release(kept.id).expect(409);
  expect(body).toMatchObject({ code: 'consent_missing', scope: 'release' });
  expect(body.detail).toMatch(/to be kept/);
  await say(household, true, kept.id);
  await release(kept.id).expect(201);
});

test('a lead cannot choose to let a thing go on a general word either', async () => {
  const household = await bench.household();
  const toy = await bench.takeIn(household, { materialClass: 'textile-stuffed', sizeClass: 'garment', significance: 'everyday' });
  await say(household, true);
  const choose = () => bench.network.post(`/v1/items/${toy.id}/disposition-overrides`, { disposition: 'release', reason: 'Nobody can save it in time.', personId: bench.incident.person('P1') });
  expect((await choose().expect(409)).body).toMatchObject({ code: 'consent_missing', scope: 'release' });
  await say(household, true, toy.id);
  await choose().expect(201);
});
