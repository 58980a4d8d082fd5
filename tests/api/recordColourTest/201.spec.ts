import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a colour that moves stops the rinse and makes the item more urgent', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const tested = await bench.colourTest(quilt.id, 'any-transfer').expect(201);
  expect(tested.body).toMatchObject({ urgency: 'immediate' });
  expect(tested.body.nextStep).not.toBe('rinse');
});

test('colours that hold lead to the rinse only when every colour is tested', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  expect((await bench.colourTest(quilt.id, 'no-transfer', false).expect(201)).body.nextStep).toBe('colour-test');
  expect((await bench.colourTest(quilt.id, 'no-transfer', true).expect(201)).body.nextStep).toBe('rinse');
});
