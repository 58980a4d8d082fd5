import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('the thing stays with its giver, who sees it in the record', async () => {
  const { itemId, offerId } = await bench.offered();
  expect((await bench.receiver.network.post(`/v1/aid-offers/${offerId}/refusals`, {}).expect(200)).body.state).toBe('declined');
  expect((await bench.chainOf('giver', itemId)).at(-1)).toMatchObject({ kind: 'hand-over-ended', refs: { handOverId: offerId, outcome: 'declined' } });
  expect((await bench.giver.network.get(`/v1/items/${itemId}`)).body).toMatchObject({ stage: 'waiting', openHandOver: null });
  expect((await bench.accept(offerId)).body).toMatchObject({ code: 'hand_over_not_open', state: 'declined' });
});
