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

test('itself, an item of nowhere, and two households', async () => {
  const [one, other] = [await matters.quilt(), await matters.quilt()];
  expect(await refusedChangingNothing(bench, () => matters.merge(one.id, one.id))).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'same_item', errors: [{ pointer: '#/into' }] } });
  expect(await refusedChangingNothing(bench, () => matters.merge(one.id, '0198b7a0-0000-7000-8000-000000000009'))).toMatchObject({ status: 422, body: { code: 'reference_unknown', errors: [{ pointer: '#/into' }] } });
  expect(await refusedChangingNothing(bench, () => matters.merge('0198b7a0-0000-7000-8000-000000000009', one.id))).toMatchObject({ status: 404 });
  const answer = await refusedChangingNothing(bench, () => matters.merge(one.id, other.id));
  expect(answer).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'other_household', detail: expect.stringContaining('swap the identities') } });
});

test('records that count differently, and somebody who is no lead', async () => {
  const household = await bench.household();
  const [one, lot] = [await bench.takeIn(household), await bench.takeIn(household, { count: 12 })];
  expect(await refusedChangingNothing(bench, () => matters.merge(one.id, lot.id))).toMatchObject({ status: 422, body: { reason: 'counts_differ', detail: expect.stringContaining('12') } });
  const twin = await bench.takeIn(household);
  expect(await refusedChangingNothing(bench, () => matters.merge(one.id, twin.id, { personId: bench.incident.person('P2') }))).toMatchObject({ status: 422, body: { errors: [{ code: 'not_a_lead', pointer: '#/personId' }] } });
  expect(await refusedChangingNothing(bench, () => matters.merge(one.id, twin.id, { reason: 'because' }))).toMatchObject({ status: 400 });
});

test('a record about which something is open, or that is closed', async () => {
  const household = await bench.household();
  const [lost, doubted, whole, home] = [await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household)];
  await matters.missing(lost.id).expect(201);
  await matters.dispute(doubted.id, bench.freezer()).expect(201);
  await bench.handBack(household, [home.id]).expect(201);
  expect(await refusedChangingNothing(bench, () => matters.merge(lost.id, whole.id))).toMatchObject({ status: 409, body: { code: 'item_missing' } });
  expect(await refusedChangingNothing(bench, () => matters.merge(doubted.id, whole.id))).toMatchObject({ status: 409, body: { code: 'location_disputed' } });
  expect(await refusedChangingNothing(bench, () => matters.merge(whole.id, home.id))).toMatchObject({ status: 409, body: { code: 'item_terminal' } });
  // The other way round nothing is buried: the thing that goes on is still looked for.
  await matters.merge(whole.id, lost.id).expect(201);
  expect((await bench.read(lost.id)).missing).toBe(true);
});
