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

test('what went home is not missing', async () => {
  const household = await bench.household();
  const home = await bench.takeIn(household);
  await bench.handBack(household, [home.id]).expect(201);
  expect(await refusedChangingNothing(bench, () => matters.missing(home.id))).toMatchObject({ status: 409, body: { code: 'item_terminal' } });
});

test('a person of no such incident, a time to come, and an item that is not there', async () => {
  const quilt = await matters.quilt();
  const strange = '0198b7a0-0000-7000-8000-000000000009';
  expect(await refusedChangingNothing(bench, () => matters.missing(quilt.id, { personId: strange }))).toMatchObject({ status: 422, body: { code: 'reference_unknown', errors: [{ pointer: '#/personId' }] } });
  expect(await refusedChangingNothing(bench, () => matters.missing(quilt.id, { lookedAt: '2026-05-10T07:00:00Z' }))).toMatchObject({ status: 422, body: { errors: [{ pointer: '#/lookedAt', code: 'time_ahead' }] } });
  expect(await refusedChangingNothing(bench, () => matters.missing(strange))).toMatchObject({ status: 404 });
});
