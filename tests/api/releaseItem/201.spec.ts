import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const release = (itemId: string) => bench.network.post(`/v1/items/${itemId}/releases`, { to: 'disposed', personId: bench.incident.person('P1') });

test('an item is let go only with the recorded agreement of its owner', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const before = await recordOf(bench, quilt.id);
  expect((await release(quilt.id).expect(409)).body.code).toBe('consent_missing');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  await bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'release', given: true, manner: 'written', itemId: quilt.id }).expect(201);
  await release(quilt.id).expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'released' });
});
