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

test('open ones come first, page by page, and may be asked for alone', async () => {
  const household = await bench.household();
  const ids: string[] = [];
  for (let n = 0; n < 4; n += 1) {
    const item = await bench.takeIn(household);
    ids.push((await carry.offer({ kind: 'courier', id: carry.person('P5') }, { itemIds: [item.id] }).expect(201)).body.id);
  }
  await carry.answer(ids[0] ?? '', 'withdrawals', { personId: carry.person('P2'), reason: 'Not today' }).expect(201);
  const path = `/v1/incidents/${bench.incident.id}/hand-overs`;
  const first = (await bench.network.get(`${path}?limit=3`).expect(200)).body;
  const second = (await bench.network.get(`${path}?limit=3&cursor=${encodeURIComponent(first.nextCursor)}`).expect(200)).body;
  expect([...first.items, ...second.items].map(({ id, state, things }) => [id, state, things])).toEqual([[ids[1], 'open', 1], [ids[2], 'open', 1], [ids[3], 'open', 1], [ids[0], 'withdrawn', 1]]);
  expect((await bench.network.get(`${path}?state=withdrawn`).expect(200)).body.items.map(({ id }: { id: string }) => id)).toEqual([ids[0]]);
  expect((await bench.network.get(`${path}?state=open&cursor=${encodeURIComponent(first.nextCursor)}`).expect(400)).body.code).toBe('cursor_invalid');
});
