import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('what was withdrawn can be offered anew', async () => {
  const { itemId, offerId } = await bench.offered();
  await bench.giver.network.post(`/v1/aid-offers/${offerId}/withdrawals`, {}).expect(200);
  expect((await bench.giver.network.post(`/v1/aid-offers/${offerId}/withdrawals`, {})).body).toMatchObject({ code: 'hand_over_not_open', state: 'withdrawn' });
  const again = (await bench.offer(itemId).expect(201)).body.id;
  expect((await bench.accept(again)).status).toBe(201);
});

test('the partner does not withdraw what it was offered', async () => {
  const { offerId } = await bench.offered();
  expect((await bench.receiver.network.post(`/v1/aid-offers/${offerId}/withdrawals`, {})).body.code).toBe('command_refused');
});
