import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('open ones first, the longest open first, by pages, each with what is due at this moment', async () => {
  const ids: string[] = [];
  for (const readyAt of ['2026-05-08T00:00:00Z', '2026-05-01T00:00:00Z', '2026-04-10T00:00:00Z', '2026-03-01T00:00:00Z']) {
    const household = await bench.household();
    await bench.takeIn(household);
    ids.push((await bench.network.post(`/v1/households/${household.id}/uncollected`, { deciderId: bench.incident.person('P1'), readyAt }).expect(201)).body.id as string);
  }
  const first = (await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected?limit=3`).expect(200)).body;
  const rest = (await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected?limit=3&cursor=${encodeURIComponent(first.nextCursor)}`).expect(200)).body;
  const all = [...first.items, ...rest.items] as { id: string; due: string | null }[];
  expect(all.map(({ id }) => id)).toEqual(ids);
  expect(all.map(({ due }) => due)).toEqual([null, 'first-reminder', 'second-reminder', 'decision']);
});
