import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

test.each(['hoursBack=0.5', 'hoursBack=200', 'hoursAhead=100', 'kinds=book'])('hours that no picture has are refused: %s', async (query) => {
  const { id } = await bench.takeIn(await bench.household());
  const { body } = await bench.network.get(`/v1/items/${id}/climate/plot?${query}`).expect(400).expect('content-type', /application\/problem\+json/);
  expect(body).toMatchObject({ code: 'validation_failed' });
});
