import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ALL_WELL, Carrying, openTwoSites } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

test('what is scanned on is kept by the vehicle; a second scan changes nothing', async () => {
  const household = await bench.household();
  const [expected, stranger] = [await bench.takeIn(household), await bench.takeIn(household)];
  const crate = await carry.container();
  await carry.itemIn(crate.id, household);
  const van = await carry.vehicle();
  const { id } = await carry.manifest(van, [expected.tag]);
  const { body } = await carry.onManifest(id, 'loadings', { tags: [expected.tag, crate.tag, stranger.tag] }).expect(201);
  expect(body.departure).toEqual({ asExpected: [expected.id], excused: [], unaccounted: [], unexpected: [crate.id, stranger.id].sort() });
  expect((await bench.read(expected.id)).keeper).toEqual(van);
  expect((await carry.readContainer(crate.id)).standsAt).toEqual(van);
  const { body: again } = await carry.onManifest(id, 'loadings', { tags: [expected.tag] }).expect(201);
  expect(again.lines).toEqual(body.lines);
  expect((await bench.read(expected.id))['custodySeq']).toBe(2);
  expect(await carry.reconciled()).toEqual(ALL_WELL);
});

test('a crate is packed by the same rules', async () => {
  const item = await bench.takeIn(await bench.household());
  const crate = await carry.container();
  const { id } = await carry.manifest({ kind: 'container', id: crate.id }, [item.tag]);
  await carry.onManifest(id, 'loadings', { tags: [item.tag] }).expect(201);
  expect((await bench.read(item.id)).keeper).toEqual({ kind: 'container', id: crate.id });
});
