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

test('a place that is named twice or not at all', async () => {
  const quilt = await matters.quilt();
  for (const body of [{}, { place: bench.holding('clean'), placeTag: 'PBBC-BBB-63' }, { place: null, placeTag: null }]) {
    const answer = await refusedChangingNothing(bench, () => bench.network.post(`/v1/items/${quilt.id}/location-disputes`, body));
    expect(answer).toMatchObject({ status: 400, body: { code: 'validation_failed' } });
  }
});

test('where it is on record, which disputes nothing', async () => {
  const quilt = await matters.quilt();
  const answer = await refusedChangingNothing(bench, () => matters.dispute(quilt.id, quilt.keeper));
  expect(answer).toMatchObject({ status: 422, body: { code: 'command_refused', reason: 'same_keeper', detail: expect.stringContaining('reported-missing') } });
});

test('a place that is none of the incident, a tag that is mistyped, and a person who is none', async () => {
  const quilt = await matters.quilt();
  const strange = '0198b7a0-0000-7000-8000-000000000009';
  expect(await refusedChangingNothing(bench, () => matters.dispute(quilt.id, { kind: 'shelf', id: strange }))).toMatchObject({ status: 422, body: { code: 'reference_unknown', errors: [{ pointer: '#/place/id' }] } });
  expect(await refusedChangingNothing(bench, () => bench.network.post(`/v1/items/${quilt.id}/location-disputes`, { placeTag: 'PBBC-BBB-00' }))).toMatchObject({ status: 422, body: { code: 'tag_invalid', errors: [{ pointer: '#/placeTag' }] } });
  expect(await refusedChangingNothing(bench, () => bench.network.post(`/v1/items/${quilt.id}/location-disputes`, { placeTag: quilt.tag }))).toMatchObject({ status: 422, body: { code: 'tag_invalid', detail: expect.stringContaining('a tag for an item') } });
  expect(await refusedChangingNothing(bench, () => matters.dispute(quilt.id, bench.holding('clean'), { personId: strange }))).toMatchObject({ status: 422, body: { code: 'reference_unknown', errors: [{ pointer: '#/personId' }] } });
  expect(await refusedChangingNothing(bench, () => matters.dispute(quilt.id, bench.holding('clean'), { seenAt: '2026-05-10T07:00:00Z' }))).toMatchObject({ status: 422, body: { code: 'command_refused', errors: [{ code: 'time_ahead' }] } });
});

test('what went home, and what is not there', async () => {
  const household = await bench.household();
  const home = await bench.takeIn(household);
  await bench.handBack(household, [home.id]).expect(201);
  expect(await refusedChangingNothing(bench, () => matters.dispute(home.id, bench.holding('clean')))).toMatchObject({ status: 409, body: { code: 'item_terminal', detail: expect.stringContaining('coordinator') } });
  expect(await refusedChangingNothing(bench, () => matters.dispute('0198b7a0-0000-7000-8000-000000000009', bench.holding('clean')))).toMatchObject({ status: 404, body: { code: 'not_found' } });
});
