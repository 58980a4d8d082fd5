import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { mattersOf } from '../support/matters.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let matters: ReturnType<typeof mattersOf>;
beforeAll(async () => {
  bench = await Workbench.open();
  matters = mattersOf(bench);
});
afterAll(() => bench.close());
test('both records go on under the other tag, name each other, and the tags lead to the right things', async () => {
  const [one, other] = [await matters.quilt(), await matters.quilt({ description: 'Quilt of the neighbours' })];
  const { body, headers } = await matters.swap(one.id, other.id).expect(201);
  expect(body.items).toMatchObject([{ id: one.id, tag: other.tag, description: one.description, locationDisputed: false }, { id: other.id, tag: one.tag, description: 'Quilt of the neighbours' }]);
  expect(headers['etag']).toBe(`"${body.items[0].version}"`);
  expect((await matters.chain(one.id)).at(-1)).toMatchObject({ kind: 'retagged', to: one.keeper, stage: 'waiting', refs: { swappedWith: other.id, reason: 'confused-at-tagging', personId: matters.lead } });
  expect((await matters.chain(other.id)).at(-1)).toMatchObject({ kind: 'retagged', refs: { swappedWith: one.id } });
  expect((await matters.lookUp(one.tag)).item.id).toBe(other.id);
  expect((await matters.lookUp(other.tag)).item.id).toBe(one.id);
  expect(await bench.read(one.id)).toEqual(body.items[0]);
  expect(await bench.read(other.id)).toEqual(body.items[1]);
  await matters.verified();
});

test('where the two lie apart both locations are disputed, each in favour of the place of the other', async () => {
  const [one, other] = [await matters.quilt(), await matters.quilt()];
  await bench.pass(one.id, 'moved', bench.holding('clean'));
  const { body } = await matters.swap(one.id, other.id, { reason: 'came-off-and-put-back-wrong' }).expect(201);
  expect(body.items).toMatchObject([{ locationDisputed: true, keeper: bench.holding('clean') }, { locationDisputed: true, keeper: other.keeper }]);
  expect((await matters.chain(one.id)).at(-1)).toMatchObject({ kind: 'location-disputed', refs: { claimedKind: other.keeper.kind, claimedId: other.keeper.id, swappedWith: other.id } });
  await matters.settle(one.id, other.keeper).expect(201);
  await matters.settle(other.id, bench.holding('clean')).expect(201);
  await matters.verified();
});

test('swapped back, everything is as it was, with four events more', async () => {
  const [one, other] = [await matters.quilt(), await matters.quilt()];
  await matters.swap(one.id, other.id).expect(201);
  await matters.swap(other.id, one.id).expect(201);
  expect(await bench.read(one.id)).toMatchObject({ tag: one.tag, keeper: one.keeper, custodySeq: 3 });
  expect((await matters.lookUp(one.tag)).item.id).toBe(one.id);
});

test('two who swap the same things from both ends at once do it twice, one after the other', async () => {
  const [one, other] = [await matters.quilt(), await matters.quilt()];
  const answers = await Promise.all([matters.swap(one.id, other.id), matters.swap(other.id, one.id)]);
  expect(answers.map(({ status }) => status)).toEqual([201, 201]);
  expect(await bench.read(one.id)).toMatchObject({ tag: one.tag, custodySeq: 3 });
  await matters.verified();
});
