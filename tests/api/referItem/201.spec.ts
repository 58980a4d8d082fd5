import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const refer = (itemId: string) => bench.network.post(`/v1/items/${itemId}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The red dye moves.' });

test('an item goes to a specialist with the consent that allows it', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  expect((await refer(quilt.id).expect(201)).body.item).toMatchObject({ stage: 'referred-out' });
  const chain = await bench.network.get(`/v1/items/${quilt.id}/custody-events`).expect(200);
  expect(chain.body.items.at(-1)).toMatchObject({ kind: 'referred-out', refs: { consentId: expect.any(String) } });
});

test('without the owner\'s word it stays, and nothing changes', async () => {
  const quilt = await bench.testedQuilt(await bench.household([{ scope: 'treat', given: true, manner: 'spoken' }]));
  const before = await recordOf(bench, quilt.id);
  expect((await refer(quilt.id).expect(409)).body.code).toBe('consent_missing');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});
