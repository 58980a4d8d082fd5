import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Carrying, openTwoSites } from '../support/carrying.js';
import { recordOf, type Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

const courier = () => ({ kind: 'courier', id: carry.person('P5') });

test('one thing that cannot be offered keeps back all of them, and is named', async () => {
  const household = await bench.household();
  const [fine, busy] = [await bench.takeIn(household), await bench.testedQuilt(household)];
  await bench.startAt(busy.id, 'RINSE');
  const before = await recordOf(bench, fine.id);
  const { body } = await carry.offer(courier(), { tags: [fine.tag, busy.tag] }, { from: null }).expect(409);
  expect(body).toMatchObject({ code: 'wrong_keeper', errors: [{ pointer: '#/tags/1' }] });
  const alone = await carry.offer(courier(), { tags: [busy.tag] }).expect(409);
  expect(alone.body).toMatchObject({ code: 'wrong_stage', itemId: busy.id });
  expect(alone.body.detail).toContain(busy.tag);
  expect(await recordOf(bench, fine.id)).toEqual(before);
});

test('what is offered is not offered again', async () => {
  const item = await bench.takeIn(await bench.household());
  await carry.offer(courier(), { itemIds: [item.id] }).expect(201);
  expect((await carry.offer({ kind: 'courier', id: carry.person('P6') }, { itemIds: [item.id] }).expect(409)).body.code).toBe('hand_over_open');
});

test('of two offers of one thing at the same moment one is made', async () => {
  const item = await bench.takeIn(await bench.household());
  const answers = await Promise.all(['P5', 'P6'].map((code) => carry.offer({ kind: 'courier', id: carry.person(code) }, { itemIds: [item.id] })));
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
});

test('a specialist is offered only what its owner agreed to refer', async () => {
  const item = await bench.takeIn(await bench.household([{ scope: 'treat', given: true, manner: 'spoken' }]));
  expect((await carry.offer({ kind: 'specialist', id: bench.incident.specialist('SP1') }, { itemIds: [item.id] }).expect(409)).body).toMatchObject({ code: 'consent_missing', itemId: item.id });
});
