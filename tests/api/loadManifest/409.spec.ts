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

test('one thing that cannot go keeps back the whole scan, and is named', async () => {
  const household = await bench.household();
  const [fine, busy, offered] = [await bench.takeIn(household), await bench.testedQuilt(household), await bench.takeIn(household)];
  await bench.startAt(busy.id, 'RINSE');
  await carry.offer({ kind: 'courier', id: carry.person('P5') }, { itemIds: [offered.id] }).expect(201);
  const { id } = await carry.manifest(await carry.vehicle());
  expect((await carry.onManifest(id, 'loadings', { tags: [fine.tag, busy.tag] }).expect(422)).body).toMatchObject({ code: 'command_refused', itemId: busy.id });
  expect((await carry.onManifest(id, 'loadings', { tags: [fine.tag, offered.tag] }).expect(409)).body).toMatchObject({ code: 'hand_over_open', itemId: offered.id });
  expect((await bench.read(fine.id)).keeper).toEqual(fine.keeper);
});

test('a van takes what it has room for, and none of a scan beyond it', async () => {
  const household = await bench.household();
  const [first, second] = [await bench.takeIn(household), await bench.takeIn(household)];
  const { id } = await carry.manifest(await carry.vehicle(Number(first['freezerVolumeL']) * 2 - 1));
  expect((await carry.onManifest(id, 'loadings', { tags: [first.tag, second.tag] }).expect(409)).body).toMatchObject({ code: 'capacity_full', itemId: second.id });
  await carry.onManifest(id, 'loadings', { tags: [first.tag] }).expect(201);
});

test('after the departure nothing is loaded any more', async () => {
  const item = await bench.takeIn(await bench.household());
  const { id } = await carry.manifest(await carry.vehicle());
  await carry.onManifest(id, 'departures', {}).expect(201);
  expect((await carry.onManifest(id, 'loadings', { tags: [item.tag] }).expect(409)).body).toMatchObject({ code: 'manifest_state', state: 'departed' });
});
