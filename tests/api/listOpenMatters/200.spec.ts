import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { mattersOf } from '../support/matters.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let matters: ReturnType<typeof mattersOf>;
beforeAll(async () => {
  bench = await Workbench.open();
  matters = mattersOf(bench);
});
afterAll(() => bench.close());
test('every item about which something is open, each once, page by page, with the latest claim', async () => {
  const [fine, lost, doubted, both] = [await matters.quilt(), await matters.quilt(), await matters.quilt(), await matters.quilt()];
  await matters.missing(lost.id).expect(201);
  await matters.dispute(doubted.id, bench.freezer(), { note: 'In the chest, left.', seenAt: '2026-05-09T06:40:00Z' }).expect(201);
  bench.server.clock.set(bench.server.clock.nowMs() + 60_000);
  await matters.dispute(doubted.id, bench.holding('clean'), { note: 'On the clean table.', seenAt: '2026-05-09T06:55:00Z' }).expect(201);
  await matters.dispute(both.id, bench.freezer()).expect(201);
  await matters.missing(both.id).expect(201);
  const { items, nextCursor } = await matters.open();
  expect(nextCursor).toBeNull();
  expect(items.map(({ item }: { item: { id: string } }) => item.id)).toEqual([lost.id, doubted.id, both.id].sort());
  expect(JSON.stringify(items)).not.toContain(fine.id);
  const claimOf = (id: string) => items.find(({ item }: { item: { id: string } }) => item.id === id).latestClaim;
  expect(claimOf(lost.id)).toBeNull();
  expect(claimOf(doubted.id)).toEqual({ place: bench.holding('clean'), seenAt: '2026-05-09T06:55:00.000Z', personId: bench.incident.person('P2'), note: 'On the clean table.' });
  const first = await matters.open('?limit=2');
  const rest = await matters.open(`?limit=2&cursor=${encodeURIComponent(first.nextCursor)}`);
  expect([...first.items, ...rest.items]).toEqual(items);
  expect((await matters.open('?matter=missing')).items).toHaveLength(2);
  expect((await matters.open('?matter=disputed')).items).toHaveLength(2);
  expect((await matters.open('?matter=hand-over')).items).toEqual([]);
  await matters.find(lost.id, lost.keeper).expect(201);
  expect((await matters.open('?matter=missing')).items).toHaveLength(1);
});

test('another kind of matter, and a cursor of another list', async () => {
  await bench.network.get(`/v1/incidents/${bench.incident.id}/open-matters?matter=boredom`).expect(400);
  const { nextCursor } = await matters.open('?limit=1');
  const answer = await bench.network.get(`/v1/incidents/${bench.incident.id}/open-matters?matter=missing&cursor=${encodeURIComponent(nextCursor)}`);
  expect(answer.body.code).toBe('cursor_invalid');
  await bench.network.get('/v1/incidents/0198b7a0-0000-7000-8000-000000000009/open-matters').expect(404);
});
