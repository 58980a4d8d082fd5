import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('the list is empty until somebody does what they should not, and then holds each once, in order, by pages', async () => {
  const path = `/v1/incidents/${bench.incident.id}/unsuited-steps`;
  expect((await bench.network.get(path).expect(200)).body).toEqual({ items: [], nextCursor: null });
  const household = await bench.household();
  const override = { personId: bench.incident.person('P1'), reason: 'Nobody else was there.' };
  const itemIds: string[] = [];
  for (let n = 0; n < 3; n += 1) {
    const quilt = await bench.testedQuilt(household);
    await bench.report(quilt.id, 'wrap', 'done', { personId: bench.incident.person('P2'), override }).expect(201);
    itemIds.push(quilt.id);
  }
  const seen: string[] = [];
  let next: string | null = '';
  while (next !== null) {
    const { body }: { body: { items: { itemId: string; override: object }[]; nextCursor: string | null } } = await bench.network.get(`${path}?limit=2${next === '' ? '' : `&cursor=${next}`}`).expect(200);
    for (const row of body.items) expect(row.override).toEqual(override);
    seen.push(...body.items.map(({ itemId }) => itemId));
    next = body.nextCursor;
  }
  expect(seen).toEqual(itemIds);
});
