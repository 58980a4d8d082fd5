import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { bookFor } from '../support/hand-back.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('by pages in the order of time, with free places, and no family in them; what is over is left out', async () => {
  const site = bench.incident.site();
  const { opened } = (await bench.network.post(`/v1/sites/${site}/hand-back-slots`, { startsAt: '2026-05-20T15:00:00Z', minutes: 30, slots: 5, capacity: 2 }).expect(201)).body;
  const household = await bench.household();
  await bookFor(bench, household.id, opened[1].id);
  const first = (await bench.network.get(`/v1/sites/${site}/hand-back-slots?limit=3`).expect(200)).body;
  expect(first.items.map((slot: { booked: number; free: number }) => [slot.booked, slot.free])).toEqual([[0, 2], [1, 1], [0, 2]]);
  const rest = (await bench.network.get(`/v1/sites/${site}/hand-back-slots?limit=3&cursor=${encodeURIComponent(first.nextCursor)}`).expect(200)).body;
  expect([...first.items, ...rest.items].map(({ id }: { id: string }) => id)).toEqual(opened.map(({ id }: { id: string }) => id));
  expect(JSON.stringify(first)).not.toContain(household.id);
  const later = (await bench.network.get(`/v1/sites/${site}/hand-back-slots?from=2026-05-20T16:45:00Z`).expect(200)).body;
  expect(later.items).toHaveLength(2);
});
