import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

test('what hangs is listed page by page with water and clock; what was taken down is not', async () => {
  const household = await bench.household();
  const ids: string[] = [];
  for (let i = 0; i < 4; i += 1) {
    const { id } = await bench.testedQuilt(household, { sizeClass: 'crib-quilt' });
    for (const step of ['rinse', 'blot']) await bench.report(id, step).expect(201);
    await bench.hang(id);
    ids.push(id);
  }
  bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z'));
  await bench.pass(ids[3]!, 'drying-ended', bench.holding('clean'));
  await reckonAir(bench.server, bench.network);
  const seen: string[] = [];
  let path: string | null = `/v1/drying-rooms/${bench.incident.room('ROOM')}/items?limit=2`;
  while (path !== null) {
    const { body } = (await bench.network.get(path).expect(200)) as { body: { items: { itemId: string; standing: { isDry: boolean; water: { leftKg: number }; clock: { state: string } } }[]; nextCursor: string | null } };
    for (const item of body.items) expect(item).toMatchObject({ standing: { takenAt: null, isDry: false, clock: { state: 'in-time' } } });
    seen.push(...body.items.map(({ itemId }) => itemId));
    path = body.nextCursor === null ? null : `/v1/drying-rooms/${bench.incident.room('ROOM')}/items?limit=2&cursor=${encodeURIComponent(body.nextCursor)}`;
  }
  expect(seen).toEqual(ids.slice(0, 3).toSorted());
});
