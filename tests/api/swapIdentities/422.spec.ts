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

test('itself, an item of nowhere, somebody who is no lead', async () => {
  const [one, other] = [await matters.quilt(), await matters.quilt()];
  expect(await refusedChangingNothing(bench, () => matters.swap(one.id, one.id))).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'same_item', errors: [{ pointer: '#/with' }] } });
  expect(await refusedChangingNothing(bench, () => matters.swap(one.id, '0198b7a0-0000-7000-8000-000000000009'))).toMatchObject({ status: 422, body: { code: 'reference_unknown', errors: [{ pointer: '#/with' }] } });
  expect(await refusedChangingNothing(bench, () => matters.swap(one.id, other.id, { personId: bench.incident.person('P2') }))).toMatchObject({ status: 422, body: { errors: [{ code: 'not_a_lead' }] } });
});

test('a thing that went home: its record is closed, and the tags stay as they are', async () => {
  const household = await bench.household();
  const [one, home] = [await bench.takeIn(household), await bench.takeIn(household)];
  await bench.handBack(household, [home.id]).expect(201);
  expect(await refusedChangingNothing(bench, () => matters.swap(one.id, home.id))).toMatchObject({ status: 409, body: { code: 'item_terminal', detail: expect.stringContaining('coordinator') } });
});
