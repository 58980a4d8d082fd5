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
test('one record ends and names the other, which names the first with its last hash; both tags lead to the thing', async () => {
  const household = await bench.household();
  const [twice, once] = [await bench.takeIn(household), await bench.takeIn(household)];
  const { body, headers } = await matters.merge(twice.id, once.id).expect(201);
  expect(body.merged).toMatchObject({ id: twice.id, stage: 'merged', keeper: { kind: 'same-thing', id: once.id }, tag: twice.tag });
  expect(body.item).toMatchObject({ id: once.id, keeper: once.keeper, stage: 'waiting', custodySeq: 2, tag: once.tag });
  expect(headers['location']).toBe(`/v1/items/${once.id}`);
  const [ended, goesOn] = [(await matters.chain(twice.id)).at(-1), (await matters.chain(once.id)).at(-1)];
  expect(ended).toMatchObject({ kind: 'merged-away', refs: { mergedInto: once.id, reason: 'tagged-twice', personId: matters.lead } });
  expect(goesOn).toMatchObject({ kind: 'merged-in', refs: { mergedFrom: twice.id, otherHead: ended?.hash } });
  for (const tag of [twice.tag, once.tag]) expect(await matters.lookUp(tag)).toMatchObject({ tag, item: { id: once.id } });
  await matters.verified();
});

test('a scan of the old tag is a scan of the thing, over several merges', async () => {
  const household = await bench.household();
  const [first, second, third] = [await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household)];
  await matters.merge(first.id, second.id).expect(201);
  await matters.merge(second.id, third.id).expect(201);
  const scan = { scanId: '0198b7a0-0000-7000-8000-0000000000a1', itemTag: first.tag, place: bench.holding('clean'), seenAt: new Date(bench.server.clock.nowMs()).toISOString(), baseSeq: 2 };
  const { body } = await bench.network.post(`/v1/incidents/${bench.incident.id}/scans`, { scans: [scan] }).expect(200);
  expect(body.results[0]).toMatchObject({ verdict: 'applied', itemId: third.id });
  expect((await bench.read(third.id)).keeper).toEqual(bench.holding('clean'));
  await matters.verified();
});

test('a drying place that the doubled record took is free again', async () => {
  const household = await bench.household();
  const hung = await bench.testedQuilt(household);
  for (const step of ['rinse', 'blot']) await bench.report(hung.id, step).expect(201);
  await bench.hang(hung.id);
  const other = await bench.takeIn(household);
  await matters.merge(hung.id, other.id).expect(201);
  const { body } = await bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`).expect(200);
  expect(body.places.find((place: { id: string }) => place.id === bench.incident.place('R1')).taken).toBe(0);
});

test('two who join the same records from both ends at once: one does, nobody waits for ever', async () => {
  const household = await bench.household();
  const [one, other] = [await bench.takeIn(household), await bench.takeIn(household)];
  const answers = await Promise.all([matters.merge(one.id, other.id), matters.merge(other.id, one.id)]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  expect(answers.find(({ status }) => status === 409)?.body.code).toBe('item_terminal');
  await matters.verified();
});

test('a mistaken merge is put right by a correction', async () => {
  const household = await bench.household();
  const [one, other] = [await bench.takeIn(household), await bench.takeIn(household)];
  await matters.merge(one.id, other.id).expect(201);
  await bench.network.post(`/v1/items/${one.id}/custody-events`, { kind: 'correction', from: { kind: 'same-thing', id: other.id }, to: one.keeper, stage: 'waiting', corrects: { seq: 2, reason: 'two-things-after-all' } }).expect(201);
  expect(await bench.read(one.id)).toMatchObject({ stage: 'waiting', keeper: one.keeper });
  expect((await matters.lookUp(one.tag)).item.id).toBe(one.id);
  await matters.verified();
});
