import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('slips with a reserved tag each, which the sheet of its block prints', async () => {
  const make = (slips: number) => bench.network.post(`/v1/sites/${bench.incident.site()}/paper-kits`, { slips });
  const { body } = await make(12).expect(201);
  expect(new Set(body.tags).size).toBe(12);
  await bench.network.get(`/v1/tag-blocks/${body.tagBlockId}/sheet?template=a4-64x38`).expect(200);
  const other = (await make(3).expect(201)).body;
  expect(other.tags.filter((tag: string) => body.tags.includes(tag))).toEqual([]);
  await make(0).expect(400);
  await make(501).expect(400);
  await bench.network.post(`/v1/sites/${newId()}/paper-kits`, { slips: 1 }).expect(404);
}, 60_000);
