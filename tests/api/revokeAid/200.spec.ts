import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('an end holds on both sides at once; what is offered can still be taken back, and nothing else passes', async () => {
  const { itemId, offerId } = await bench.offered();
  expect((await bench.receiver.network.post(`/v1/aid-agreements/${bench.agreementId}/revocations`, {}).expect(200)).body.state).toBe('revoked');
  expect((await bench.accept(offerId)).body).toMatchObject({ code: 'command_refused', state: 'revoked' });
  expect((await bench.offer((await bench.quilt()).id)).body).toMatchObject({ code: 'command_refused', state: 'revoked' });
  await bench.giver.network.post(`/v1/aid-offers/${offerId}/withdrawals`, {}).expect(200);
  expect((await bench.giver.network.get(`/v1/items/${itemId}`).expect(200)).body).toMatchObject({ stage: 'waiting', openHandOver: null });
  expect((await bench.giver.network.post(`/v1/aid-agreements/${bench.agreementId}/revocations`, {}).expect(422)).body.detail).toContain('revoked before');
});
