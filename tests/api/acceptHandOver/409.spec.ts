import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ALL_WELL, Carrying, openTwoSites } from '../support/carrying.js';
import { recordOf, type Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

async function offered(to?: { kind: string; id: string }) {
  const item = await bench.takeIn(await bench.household());
  const receiver = to ?? { kind: 'courier', id: carry.person('P5') };
  const { id } = (await carry.offer(receiver, { itemIds: [item.id] }).expect(201)).body;
  return { item, id: id as string };
}
const accept = (id: string, code: string, body: object = {}) => carry.answer(id, 'acceptances', { personId: carry.person(code), ...body });

test('accepted twice: the second is told how it stands, and nothing changes', async () => {
  const { item, id } = await offered();
  await accept(id, 'P5').expect(201);
  const before = await recordOf(bench, item.id);
  expect((await accept(id, 'P5').expect(409)).body).toMatchObject({ code: 'hand_over_not_open', state: 'accepted', endedBy: carry.person('P5') });
  expect(await recordOf(bench, item.id)).toEqual(before);
});

test('by somebody else, by the giver, or by somebody of another site: refused', async () => {
  const { item, id } = await offered();
  const before = await recordOf(bench, item.id);
  expect((await accept(id, 'P6').expect(409)).body).toMatchObject({ code: 'hand_over_for_another', state: 'open', to: { kind: 'courier', id: carry.person('P5') } });
  const toStore = await offered(carry.storeArea());
  for (const stranger of ['P2', 'P3']) expect((await accept(toStore.id, stranger).expect(409)).body.code).toBe('hand_over_for_another');
  expect(await recordOf(bench, item.id)).toEqual(before);
  await accept(toStore.id, 'P6').expect(201);
});

test('after it was withdrawn or declined', async () => {
  for (const [how, by, state] of [['withdrawals', 'P2', 'withdrawn'], ['refusals', 'P5', 'declined']] as const) {
    const { item, id } = await offered();
    await carry.answer(id, how, { personId: carry.person(by), reason: 'The van is full' }).expect(201);
    expect((await accept(id, 'P5').expect(409)).body).toMatchObject({ code: 'hand_over_not_open', state });
    expect((await bench.read(item.id)).keeper).toEqual(item.keeper);
  }
});

test('when its time is up, before and after the worker has looked', async () => {
  const { item, id } = await offered();
  const startMs = bench.server.clock.nowMs();
  try {
    expect(new Set(await carry.handOversDue())).not.toContain('expired');
    bench.server.clock.set(startMs + 24 * 3_600_000);
    expect((await accept(id, 'P5').expect(409)).body).toMatchObject({ code: 'hand_over_not_open', state: 'expired', endedBy: null });
    expect(await carry.handOversDue()).toContain('expired');
    expect((await bench.network.get(`/v1/hand-overs/${id}`).expect(200)).body).toMatchObject({ state: 'expired', endedBy: null, lines: [{ state: 'expired' }] });
    expect(await bench.read(item.id)).toMatchObject({ keeper: item.keeper, openHandOver: null });
    expect((await accept(id, 'P5').expect(409)).body.state).toBe('expired');
  } finally {
    bench.server.clock.set(startMs);
  }
});

test('of many acceptances at the same moment exactly one takes place', async () => {
  for (let round = 0; round < 5; round += 1) {
    const { item, id } = await offered(carry.storeArea());
    const answers = await Promise.all(['P5', 'P6', 'P5', 'P6'].map((code) => accept(id, code)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409]);
    const events = (await bench.network.get(`/v1/items/${item.id}/custody-events`).expect(200)).body.items;
    expect(events.filter(({ kind }: { kind: string }) => kind === 'hand-over-accepted')).toHaveLength(1);
  }
  expect(await carry.reconciled()).toEqual(ALL_WELL);
});

test('an acceptance and a withdrawal at the same moment: one of them, and the item is where that one says', async () => {
  for (let round = 0; round < 5; round += 1) {
    const { item, id } = await offered();
    const [taken, withdrawn] = await Promise.all([accept(id, 'P5'), carry.answer(id, 'withdrawals', { personId: carry.person('P2'), reason: 'Not today' })]);
    expect([taken.status, withdrawn.status].sort()).toEqual([201, 409]);
    expect((await bench.read(item.id)).keeper).toEqual(taken.status === 201 ? { kind: 'courier', id: carry.person('P5') } : item.keeper);
  }
});

test('a full shelf takes nothing of it, and the offer stays open', async () => {
  const item = await bench.takeIn(await bench.household());
  const shelf = await carry.shelf(Number(item['freezerVolumeL']) - 1);
  const { id } = (await carry.offer(shelf, { itemIds: [item.id] }).expect(201)).body;
  expect((await accept(id, 'P5').expect(409)).body).toMatchObject({ code: 'capacity_full', itemId: item.id });
  expect(await bench.read(item.id)).toMatchObject({ keeper: item.keeper, openHandOver: { id } });
  await accept(id, 'P5', { exceptions: [{ tag: item.tag, kind: 'no-room' }] }).expect(201);
  expect((await bench.network.get(`/v1/hand-overs/${id}`).expect(200)).body.state).toBe('declined');
});

test('a thing that a correction has put elsewhere is not offered any more; it is offered anew, and the old offer ends without it', async () => {
  const { item, id } = await offered();
  const corrects = { seq: 1, reason: 'wrong-place' };
  await bench.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'correction', from: item.keeper, to: bench.holding('clean'), corrects }).expect(201);
  expect((await accept(id, 'P5').expect(409)).body).toMatchObject({ code: 'hand_over_not_open', itemId: item.id });
  const again = await carry.offer({ kind: 'courier', id: carry.person('P6') }, { itemIds: [item.id] }).expect(201);
  await accept(id, 'P5', { exceptions: [{ tag: item.tag, kind: 'not-received' }] }).expect(201);
  await accept(again.body.id, 'P6').expect(201);
  expect((await bench.read(item.id)).keeper).toEqual({ kind: 'courier', id: carry.person('P6') });
});
