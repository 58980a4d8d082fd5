import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

test("a thing that is another network's, that is none, or no id at all answers 404 with a problem", async () => {
  const theirs = await bench.server.network();
  const { id } = await bench.takeIn(await bench.household());
  for (const wanted of [id, bench.incident.id, 'x']) {
    const { body } = await theirs.get(`/v1/items/${wanted}/climate/plot`).expect(404).expect('content-type', /application\/problem\+json/);
    expect(body).toMatchObject({ code: 'not_found' });
  }
});
