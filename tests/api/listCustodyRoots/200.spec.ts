import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { HOUR_MS, makeRoots } from '../support/custody-roots.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
  for (const hours of [2, 3, 4]) {
    await bench.takeIn(await bench.household());
    await makeRoots(bench.server, bench.network, hours * HOUR_MS);
  }
});
afterAll(() => bench.close());

test('roots are answered in the order of their numbers, page by page, each linked to the one before', async () => {
  const first = await bench.network.get('/v1/custody-roots?limit=2').expect(200);
  const rest = await bench.network.get(`/v1/custody-roots?limit=2&cursor=${first.body.nextCursor}`).expect(200);
  const roots = [...first.body.items, ...rest.body.items];
  expect(roots.map(({ rootNo }) => rootNo)).toEqual([1, 2, 3]);
  expect(rest.body.nextCursor).toBeNull();
  for (const [index, root] of roots.entries()) expect(root.prevRootHash).toBe(index === 0 ? '0'.repeat(64) : roots[index - 1].hash);
});

test('a network without roots gets an empty list, and a cursor of another list is refused', async () => {
  const other = await bench.server.network();
  expect((await other.get('/v1/custody-roots').expect(200)).body).toEqual({ items: [], nextCursor: null });
  expect((await bench.network.get('/v1/custody-roots?cursor=nonsense').expect(400)).body.code).toBe('cursor_invalid');
});
