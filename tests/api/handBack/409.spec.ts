import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('one item that is gone or in work stops the whole return, named by its place in the list', async () => {
  const household = await bench.household();
  const [here, gone, busy] = [await bench.testedQuilt(household), await bench.testedQuilt(household), await bench.testedQuilt(household)];
  await bench.handBack(household, [gone.id]).expect(201);
  await bench.startAt(busy.id, 'RINSE');
  const before = await recordOf(bench, here.id);
  expect((await bench.handBack(household, [here.id, gone.id]).expect(409)).body).toMatchObject({ code: 'item_terminal', errors: [{ pointer: '#/items/1/itemId' }] });
  expect((await bench.handBack(household, [busy.id, here.id]).expect(409)).body).toMatchObject({ code: 'wrong_stage', errors: [{ pointer: '#/items/0/itemId' }] });
  expect(await recordOf(bench, here.id)).toEqual(before);
});

test('two counters with overlapping lists in opposite order do not block each other: one return is whole, the other none', async () => {
  const household = await bench.household();
  const [a, b, c] = [await bench.testedQuilt(household), await bench.testedQuilt(household), await bench.testedQuilt(household)];
  const answers = await Promise.all([bench.handBack(household, [a.id, b.id]), bench.handBack(household, [c.id, b.id])]);
  expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409]);
  const stages = await Promise.all([a, b, c].map(async (item) => (await bench.read(item.id)).stage));
  expect(stages[1]).toBe('handed-back');
  expect(stages.filter((stage) => stage === 'handed-back')).toHaveLength(2);
});

test('an item named twice is refused by pointer', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  expect((await bench.handBack(household, [quilt.id, quilt.id]).expect(400)).body.errors[0].pointer).toBe('#/items');
});
