import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('listWeighings answers 200 with the latest first, by pages that join without a gap', async () => {
  const { id } = await bench.takeIn(await bench.household());
  bench.server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  for (const [clock, scaleKg] of [['09:00', 7], ['11:00', 5], ['10:00', 6]] as const) await bench.network.post(`/v1/items/${id}/weighings`, { scaleKg, weighedAt: `2026-05-09T${clock}:00Z` }).expect(201);
  const page = async (query: string) => (await bench.network.get(`/v1/items/${id}/weighings?${query}`).expect(200)).body as { items: { massKg: number }[]; nextCursor: string | null };
  expect((await page('')).items.map(({ massKg }) => massKg)).toEqual([5, 6, 7]);
  const first = await page('limit=2');
  const second = await page(`limit=2&cursor=${encodeURIComponent(first.nextCursor ?? '')}`);
  expect([...first.items, ...second.items].map(({ massKg }) => massKg)).toEqual([5, 6, 7]);
  expect(second.nextCursor).toBeNull();
});
