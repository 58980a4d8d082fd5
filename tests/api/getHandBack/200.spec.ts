import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a hand-back is read with its receipt, which names nobody', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const made = await bench.handBack(household, [quilt.id]).expect(201);
  const { body } = await bench.network.get(`/v1/hand-backs/${made.body.id}`).expect(200);
  expect(body.receipt.items[0]).toMatchObject({ itemId: quilt.id, tag: quilt.tag });
  expect(JSON.stringify(body)).not.toContain('Contact of');
  await (await bench.server.network()).get(`/v1/hand-backs/${made.body.id}`).expect(404);
});
