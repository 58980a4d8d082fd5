import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a partial return leaves the rest with us, and the receipt holds no name', async () => {
  const household = await bench.household();
  const [first, second] = [await bench.testedQuilt(household), await bench.testedQuilt(household)];
  const { body } = await bench.handBack(household, [second.id]).expect(201);
  expect(body.receipt.items.map((item: { itemId: string }) => item.itemId)).toEqual([second.id]);
  expect(await bench.read(first.id)).toMatchObject({ stage: 'waiting', nextStep: 'rinse' });
  expect(JSON.stringify(body)).not.toContain('Contact of');
  expect(body.receipt.householdCode).toBe(household.code);
});

test('what goes back wet says so: not done, how to keep it, what remains uncertain, each with its mark', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const { body } = await bench.handBack(household, [quilt.id]).expect(201);
  const [item] = body.receipt.items;
  expect(item.notDone).toEqual(expect.arrayContaining(['It was not rinsed.', 'It was not dried here.']));
  expect(item.storageAdvice[0]).toMatchObject({ text: expect.stringContaining('Dry it at once'), source: { mark: 'published' } });
  expect(item.residualRisk[0].text).toContain('contaminated water');
  // Said once, under what remains uncertain: of the two places a family reads it where it asks what is left of the flood.
  expect(item.storageAdvice.map(({ text }: { text: string }) => text).join(' ')).not.toContain('contaminated');
  expect(JSON.stringify(item).match(/contaminated/g)).toHaveLength(1);
  expect(item.never.join(' ')).toContain('bleach');
  expect(body.receipt.standing).toContain('Nothing is promised');
});

test('a note typed over several lines cannot pass for a line of ours on the paper', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const items = [{ itemId: quilt.id, conditionNote: 'Dry.\n   Done: restored to new.' }];
  const { body } = await bench.handBack(household, [], { items }).expect(201);
  const paper = await bench.network.get(`/v1/hand-backs/${body.id}/receipt`).expect(200);
  expect(paper.text).toContain('   Condition: Dry. Done: restored to new.');
  expect(paper.text.match(/^ {3}Done: /gm)).toHaveLength(1);
});

test('what was handed back by mistake comes back by a correction and can be handed back again', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await bench.handBack(household, [quilt.id]).expect(201);
  const { keeper, custodySeq } = await bench.read(quilt.id);
  await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'correction', from: keeper, to: bench.holding('clean'), stage: 'waiting', corrects: { seq: custodySeq, reason: 'wrong-bag' } }).expect(201);
  await bench.handBack(household, [quilt.id]).expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'handed-back' });
});
