import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const release = (itemId: string, to = 'disposed') => bench.network.post(`/v1/items/${itemId}/releases`, { to, personId: bench.incident.person('P1') });
const agree = (household: { id: string }, itemId: string, scope = 'release', given = true) =>
  bench.network.post(`/v1/households/${household.id}/consents`, { itemId, scope, given, manner: 'written' }).expect(201);

test('an owner who keeps it is obeyed, and the agreement of one item is not that of another', async () => {
  const household = await bench.household();
  const [kept, other] = [await bench.takeIn(household), await bench.takeIn(household)];
  await agree(household, kept.id, 'release', false);
  await agree(household, other.id);
  expect((await release(kept.id).expect(409)).body).toMatchObject({ code: 'consent_missing', scope: 'release' });
  await release(other.id).expect(201);
});

// Rule `consent.release` of the rule book (own calibration): let go item by item, with the photograph kept.
test('it is photographed before it goes, unless the owner has refused the photograph', async () => {
  const household = await bench.household();
  const [bare, private_] = [await bench.takeIn(household, { photographRef: '' }), await bench.takeIn(household, { photographRef: '' })];
  await agree(household, bare.id);
  await agree(household, private_.id);
  expect((await release(bare.id).expect(409)).body).toMatchObject({ code: 'wrong_stage' });
  await agree(household, private_.id, 'photograph', false);
  await release(private_.id).expect(201);
  const words = await bench.network.patch(`/v1/items/${bare.id}`, { photographRef: 'photo-9' }, { 'if-match': `"${(await bench.read(bare.id)).version}"` });
  expect(words.status).toBe(200);
  const gone = await release(bare.id, 'household').expect(201);
  expect(gone.body).toMatchObject({ stage: 'released', keeper: { kind: 'household', id: household.id }, nextStep: null });
  expect((await release(bare.id).expect(409)).body.code).toBe('item_terminal');
});
