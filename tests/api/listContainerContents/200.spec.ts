import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Carrying, openTwoSites } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

test('things in containers inside it are listed with their depth, page by page, or left out', async () => {
  const household = await bench.household();
  const [outer, inner] = [await carry.container(), await carry.container()];
  await carry.moveContainer(inner.id, inner.keeper, { kind: 'container', id: outer.id }).expect(201);
  const near = await carry.itemIn(outer.id, household);
  const deep = await carry.itemIn(inner.id, household);
  await bench.takeIn(household);
  const path = `/v1/containers/${outer.id}/contents`;
  const { body } = await bench.network.get(path).expect(200);
  const seen = body.items.map(({ id, thing, depth, containerId }: Record<string, unknown>) => [id, thing, depth, containerId]);
  expect(seen).toEqual([[inner.id, 'container', 1, outer.id], [near.id, 'item', 1, outer.id], [deep.id, 'item', 2, inner.id]]);
  const pages: string[] = [];
  let cursor: string | null = '';
  while (cursor !== null) {
    const page: { items: { id: string }[]; nextCursor: string | null } = (await bench.network.get(`${path}?limit=1${cursor === '' ? '' : `&cursor=${encodeURIComponent(cursor)}`}`).expect(200)).body;
    pages.push(...page.items.map(({ id }) => id));
    cursor = page.nextCursor;
  }
  expect(pages).toEqual([inner.id, near.id, deep.id]);
  expect((await bench.network.get(`${path}?nested=false`).expect(200)).body.items.map(({ id }: { id: string }) => id)).toEqual([inner.id, near.id]);
});
