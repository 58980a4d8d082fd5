import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('without the owner’s yes to a referral it stays, and nothing changes in either network', async () => {
  const silent = await bench.quilt([{ scope: 'treat', given: true, manner: 'spoken' }]);
  const before = await bench.records();
  expect((await bench.offer(silent.id).expect(409)).body).toMatchObject({ code: 'consent_missing', detail: expect.stringContaining('has not been asked') });
  expect(await bench.records()).toEqual(before);
});

test('what is offered already does not move and is not offered twice', async () => {
  const { itemId } = await bench.offered();
  expect((await bench.offer(itemId).expect(409)).body.code).toBe('hand_over_open');
  const { keeper } = (await bench.giver.network.get(`/v1/items/${itemId}`).expect(200)).body;
  const moved = await bench.giver.network.post(`/v1/items/${itemId}/custody-events`, { kind: 'moved', from: keeper, to: { kind: 'holding', id: bench.giver.incident.holding('clean') }, personId: bench.giver.incident.person('P1') });
  expect(moved.body.code).toBe('hand_over_open');
});

test('the receiver of an agreement gives nothing of its own by it', async () => {
  const answer = await bench.receiver.network.post(`/v1/aid-agreements/${bench.agreementId}/offers`, { itemId: (await bench.quilt()).id });
  expect([answer.status, answer.body.code]).toEqual([422, 'command_refused']);
});
