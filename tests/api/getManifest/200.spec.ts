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

test('it shows the state of each line; an id of nobody is not found', async () => {
  const item = await bench.takeIn(await bench.household());
  const made = await carry.manifest(await carry.vehicle(), [item.tag]);
  expect((await bench.network.get(`/v1/manifests/${made.id}`).expect(200)).body).toEqual(made);
  await bench.network.get(`/v1/manifests/${bench.incident.id}`).expect(404);
});
