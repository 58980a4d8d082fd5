import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('the receipt is plain text that promises nothing', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const made = await bench.handBack(household, [quilt.id]).expect(201);
  const answer = await bench.network.get(`/v1/hand-backs/${made.body.id}/receipt`).expect(200);
  expect(answer.headers['content-type']).toContain('text/plain');
  expect(answer.text).toContain(quilt.tag);
  expect(answer.text.toLowerCase()).toContain('promise');
});
