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

test('until it is accepted the giver keeps what is offered, and nothing else moves it', async () => {
  const item = await bench.takeIn(await bench.household());
  const crate = await carry.container();
  await carry.itemIn(crate.id, await bench.household());
  const to = { kind: 'courier', id: carry.person('P5') };
  const { body } = await carry.offer(to, { itemIds: [item.id], tags: [crate.tag] }, { reason: 'To the store' }).expect(201);
  expect(body).toMatchObject({ state: 'open', from: item.keeper, to, giverId: carry.person('P2'), things: 2, endedAt: null, expiresAt: '2026-05-10T07:00:00.000Z' });
  expect(body.lines).toEqual([
    expect.objectContaining({ thing: 'item', id: item.id, state: 'offered', itemsInside: null }), expect.objectContaining({ thing: 'container', id: crate.id, tag: crate.tag, itemsInside: 1 }),
  ]);
  expect(await bench.read(item.id)).toMatchObject({ keeper: item.keeper, openHandOver: { id: body.id, to } });
  const moved = await bench.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: item.keeper, to: carry.storeArea() }).expect(409);
  expect(moved.body.code).toBe('hand_over_open');
  expect((await carry.moveContainer(crate.id, crate.keeper, carry.storeArea()).expect(409)).body.code).toBe('hand_over_open');
});

test('nothing is put into a crate that is being handed over, and nothing taken out', async () => {
  const household = await bench.household();
  const crate = await carry.container();
  const inside = await carry.itemIn(crate.id, household);
  const other = await bench.takeIn(household);
  await carry.offer({ kind: 'courier', id: carry.person('P5') }, { containerIds: [crate.id] }).expect(201);
  const move = (item: typeof other, to: object) => bench.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: item.keeper, to });
  expect((await move(other, { kind: 'container', id: crate.id }).expect(409)).body).toMatchObject({ code: 'hand_over_open', containerId: crate.id });
  expect((await move(inside, carry.storeArea()).expect(409)).body.code).toBe('hand_over_open');
});
