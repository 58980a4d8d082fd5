import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('of two people who hand back one item at the same moment exactly one does', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const answers = await Promise.all([bench.handBack(household, [quilt.id]), bench.handBack(household, [quilt.id])]);
  expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409]);
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'handed-back', keeper: { kind: 'household', id: household.id } });
});

test("another household's item is refused, and neither goes", async () => {
  const household = await bench.household();
  const mine = await bench.testedQuilt(household);
  const theirs = await bench.testedQuilt(await bench.household());
  expect((await bench.handBack(household, [mine.id, theirs.id])).status).toBe(422);
  expect(await bench.read(mine.id)).toMatchObject({ stage: 'waiting' });
});
