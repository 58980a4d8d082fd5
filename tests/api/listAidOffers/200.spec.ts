import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('offers of an incident come in pages, in both directions', async () => {
  const made = [(await bench.offered()).offerId, (await bench.offered()).offerId];
  const path = `/v1/incidents/${bench.giver.incident.id}/aid-offers?limit=1`;
  const first = await bench.giver.network.get(path).expect(200);
  const second = await bench.giver.network.get(`${path}&cursor=${encodeURIComponent(first.body.nextCursor)}`).expect(200);
  expect([...first.body.items, ...second.body.items].map(({ id, direction }: { id: string; direction: string }) => [id, direction])).toEqual(made.map((id) => [id, 'out']));
});
