import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a step that is done leads to the next one and ends the work in hand', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.startAt(quilt.id, 'RINSE');
  const done = await bench.report(quilt.id, 'rinse').expect(201);
  expect(done.body.item).toMatchObject({ nextStep: 'blot', stage: 'waiting' });
});

test('mould that is found sends the item to quarantine and asks for a new plan', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.startAt(quilt.id, 'RINSE');
  const found = await bench.report(quilt.id, 'rinse', 'mould-found').expect(201);
  expect(found.body.item.keeper).toEqual(bench.holding('quarantine'));
  expect(found.body.planRunId).not.toBeNull();
});

test('a step that is not next is refused with the one that is, and nothing changes', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const before = await recordOf(bench, quilt.id);
  expect((await bench.report(quilt.id, 'check').expect(409)).body).toMatchObject({ code: 'wrong_stage', nextStep: 'rinse' });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});
