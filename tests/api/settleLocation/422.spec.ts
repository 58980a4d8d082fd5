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

test('what nobody disputes', async () => {
  const quilt = await matters.quilt();
  expect(await refusedChangingNothing(bench, () => matters.settle(quilt.id, bench.holding('clean')))).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'not_disputed', detail: expect.stringContaining('correction') } });
});

test('what is missing as well: it is found, not settled', async () => {
  const quilt = await matters.quilt();
  await matters.dispute(quilt.id, bench.holding('clean')).expect(201);
  await matters.missing(quilt.id).expect(201);
  expect(await refusedChangingNothing(bench, () => matters.settle(quilt.id, bench.holding('clean')))).toMatchObject({ status: 409, body: { code: 'item_missing', detail: expect.stringContaining('found-again') } });
});

test('a place that does not fit its stage: the answer says to name the stage', async () => {
  const quilt = await matters.quilt();
  await matters.dispute(quilt.id, bench.freezer()).expect(201);
  const rack = { kind: 'drying-place', id: bench.incident.place('R1') };
  expect(await refusedChangingNothing(bench, () => matters.settle(quilt.id, rack))).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'keeper_kind_not_allowed', detail: expect.stringContaining('refs.stage') } });
  for (const stage of ['handed-back', 'released', 'merged', 'referred-out']) expect(await refusedChangingNothing(bench, () => matters.settle(quilt.id, rack, { stage }))).toMatchObject({ status: 400 });
});

test('nobody, and a place that is none of the incident', async () => {
  const quilt = await matters.quilt();
  await matters.dispute(quilt.id, bench.freezer()).expect(201);
  const strange = '0198b7a0-0000-7000-8000-000000000009';
  expect(await refusedChangingNothing(bench, () => matters.settle(quilt.id, bench.freezer(), { personId: undefined }))).toMatchObject({ status: 400 });
  expect(await refusedChangingNothing(bench, () => matters.settle(quilt.id, bench.freezer(), { personId: strange }))).toMatchObject({ status: 422, body: { errors: [{ pointer: '#/personId' }] } });
  expect(await refusedChangingNothing(bench, () => matters.settle(quilt.id, { kind: 'freezer', id: strange }))).toMatchObject({ status: 422, body: { code: 'reference_unknown', errors: [{ pointer: '#/at/id' }] } });
});
