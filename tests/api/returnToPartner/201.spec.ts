import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('a thing is offered back by the offer by which it came, and its holder stays the keeper', async () => {
  const { offerId, theirItemId } = await bench.lent();
  const back = (await bench.receiver.network.post(`/v1/aid-offers/${offerId}/returns`, {}).expect(201)).body;
  expect(back).toMatchObject({ kind: 'return', direction: 'out', state: 'open', itemId: theirItemId });
  expect((await bench.receiver.network.get(`/v1/items/${theirItemId}`)).body).toMatchObject({ stage: 'waiting', openHandOver: { id: back.id } });
});

test('what never came is not offered back', async () => {
  const { offerId } = await bench.offered();
  expect((await bench.receiver.network.post(`/v1/aid-offers/${offerId}/returns`, {})).body).toMatchObject({ code: 'command_refused', errors: [{ code: 'not_accepted' }] });
});
