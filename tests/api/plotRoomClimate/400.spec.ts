import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

test.each(['hoursBack=0', 'hoursBack=169', 'hoursBack=x', 'hoursAhead=-1', 'hoursAhead=73', 'hoursAhead=Infinity', 'hours=3'])('hours that no picture has are refused: %s', async (query) => {
  const { body } = await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/climate/plot?${query}`).expect(400).expect('content-type', /application\/problem\+json/);
  expect(body).toMatchObject({ code: 'validation_failed' });
});
