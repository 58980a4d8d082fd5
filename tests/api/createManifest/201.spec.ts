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

test('what is to travel is written down; nothing moves yet', async () => {
  const item = await bench.takeIn(await bench.household());
  const crate = await carry.container();
  const van = await carry.vehicle();
  const made = await carry.manifest(van, [item.tag, crate.tag, item.tag]);
  expect(made).toMatchObject({ state: 'loading', carrier: van, fromSiteId: carry.site('HALL'), toSiteId: carry.site('STORE'), personId: carry.person('P2'), arrival: null, exceptions: [], departure: { asExpected: [], excused: [], unexpected: [] } });
  expect((made as unknown as { departure: { unaccounted: string[] } }).departure.unaccounted).toEqual([item.id, crate.id].sort());
  expect((await bench.read(item.id)).keeper).toEqual(item.keeper);
});
