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

test('the receiver declines all of it, with a reason; the giver keeps it', async () => {
  const item = await bench.takeIn(await bench.household());
  const { id } = (await carry.offer({ kind: 'courier', id: carry.person('P5') }, { itemIds: [item.id] }).expect(201)).body;
  expect((await carry.answer(id, 'refusals', { personId: carry.person('P6'), reason: 'Full' }).expect(409)).body.code).toBe('hand_over_for_another');
  const { body } = await carry.answer(id, 'refusals', { personId: carry.person('P5'), reason: 'The van is full' }).expect(201);
  expect(body).toMatchObject({ state: 'declined', endedNote: 'The van is full', lines: [{ state: 'declined' }] });
  expect(await bench.read(item.id)).toMatchObject({ keeper: item.keeper, openHandOver: null });
  await bench.pass(item.id, 'moved', carry.storeArea());
});
