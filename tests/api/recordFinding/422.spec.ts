import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { mattersOf, refusedChangingNothing } from '../support/matters.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let matters: ReturnType<typeof mattersOf>;
beforeAll(async () => {
  bench = await Workbench.open();
  matters = mattersOf(bench);
});
afterAll(() => bench.close());

test('what was not missing', async () => {
  const quilt = await matters.quilt();
  expect(await refusedChangingNothing(bench, () => matters.find(quilt.id, bench.holding('clean')))).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'not_missing', detail: expect.stringContaining('disputed location') } });
});

test('a freezer without room for it', async () => {
  const lot = await matters.quilt({ count: 40 });
  await matters.missing(lot.id).expect(201);
  expect(await refusedChangingNothing(bench, () => matters.find(lot.id, bench.freezer(), { stage: 'held-frozen' }))).toMatchObject({ status: 409, body: { code: 'capacity_full', unit: 'L' } });
});

test('a family that has it: that is a hand-back, with its receipt', async () => {
  const household = await bench.household();
  const quilt = await bench.takeIn(household);
  await matters.missing(quilt.id).expect(201);
  expect(await refusedChangingNothing(bench, () => matters.find(quilt.id, { kind: 'household', id: household.id }))).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'keeper_kind_not_allowed' } });
  expect(await refusedChangingNothing(bench, () => matters.find(quilt.id, { kind: 'same-thing', id: quilt.id }))).toMatchObject({ status: 422, body: { code: 'command_refused' } });
});
