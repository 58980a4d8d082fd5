import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('the giver stays the keeper, and the partner sees what it is and nothing about its family', async () => {
  const quilt = await bench.quilt();
  const offer = (await bench.offer(quilt.id).expect(201)).body;
  const item = (await bench.giver.network.get(`/v1/items/${quilt.id}`).expect(200)).body;
  expect(item).toMatchObject({ keeper: quilt.keeper, stage: 'waiting', openHandOver: { id: offer.id, to: { kind: 'partner-network' } } });
  const seen = await bench.receiver.network.get(`/v1/incidents/${bench.receiver.incident.id}/aid-offers?open=true`).expect(200);
  expect(seen.body.items.at(-1)).toMatchObject({ id: offer.id, direction: 'in', kind: 'hand-over', itemId: null, facts: { description: 'Wedding quilt, red and white', urgency: item.urgency } });
  for (const hidden of ['Ilse', item.householdId, quilt.id, bench.giver.network.networkId]) expect(seen.text).not.toContain(hidden);
});
