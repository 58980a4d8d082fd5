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

async function offered() {
  const item = await bench.takeIn(await bench.household());
  return { item, id: (await carry.offer({ kind: 'courier', id: carry.person('P5') }, { itemIds: [item.id] }).expect(201)).body.id as string };
}
const withdraw = (id: string, code: string) => carry.answer(id, 'withdrawals', { personId: carry.person(code), reason: 'Goes by van' });

test('the giver or a lead takes the offer back, nobody else', async () => {
  const [own, leads] = [await offered(), await offered()];
  expect((await withdraw(own.id, 'P3').expect(422)).body).toMatchObject({ code: 'command_refused', errors: [{ code: 'not_a_lead' }] });
  expect((await withdraw(own.id, 'P2').expect(201)).body.state).toBe('withdrawn');
  await withdraw(leads.id, 'P1').expect(201);
  expect((await withdraw(own.id, 'P2').expect(409)).body).toMatchObject({ code: 'hand_over_not_open', state: 'withdrawn' });
  expect(await bench.read(own.item.id)).toMatchObject({ keeper: own.item.keeper, openHandOver: null });
});

test('one whose time is up is withdrawn although the worker has not looked', async () => {
  const { item, id } = await offered();
  const startMs = bench.server.clock.nowMs();
  bench.server.clock.set(startMs + 25 * 3_600_000);
  await withdraw(id, 'P2').expect(201);
  bench.server.clock.set(startMs);
  expect((await bench.read(item.id))['openHandOver']).toBeNull();
  expect(await carry.handOversDue()).toContain('answered');
});
