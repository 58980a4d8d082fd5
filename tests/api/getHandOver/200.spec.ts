import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Carrying, openTwoSites } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

test('it shows what was offered; an id of nobody is not found', async () => {
  const item = await bench.takeIn(await bench.household());
  const offered = (await carry.offer({ kind: 'courier', id: carry.person('P5') }, { itemIds: [item.id] }).expect(201)).body;
  expect((await bench.network.get(`/v1/hand-overs/${offered.id}`).expect(200)).body).toEqual(offered);
  await bench.network.get(`/v1/hand-overs/${bench.incident.id}`).expect(404);
});
