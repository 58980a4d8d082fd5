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

test('it does not depart before every expected thing is aboard or named', async () => {
  const household = await bench.household();
  const [first, second, other] = [await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household)];
  const { id } = await carry.manifest(await carry.vehicle(), [first.tag, second.tag]);
  await carry.onManifest(id, 'loadings', { tags: [first.tag] }).expect(201);
  expect((await carry.onManifest(id, 'departures', {}).expect(409)).body).toMatchObject({ code: 'manifest_differs', unaccounted: [second.tag] });
  const idle = await carry.onManifest(id, 'departures', { exceptions: [{ tag: second.tag, reason: 'Wet' }, { tag: other.tag, reason: 'Wet' }] }).expect(409);
  expect(idle.body).toMatchObject({ code: 'manifest_differs', unaccounted: [], errors: [{ code: 'not_an_exception', pointer: '#/exceptions/1/tag' }] });
  expect((await bench.network.get(`/v1/manifests/${id}`).expect(200)).body).toMatchObject({ state: 'loading', exceptions: [] });
});

test('what the record has aboard from before is scanned too, or named, though nobody put it on the list', async () => {
  const household = await bench.household();
  const [listed, left] = [await bench.takeIn(household), await bench.takeIn(household)];
  const vehicle = await carry.vehicle();
  await bench.pass(left.id, 'moved', vehicle);
  const { id } = await carry.manifest(vehicle, [listed.tag]);
  await carry.onManifest(id, 'loadings', { tags: [listed.tag] }).expect(201);
  expect((await carry.onManifest(id, 'departures', {}).expect(409)).body).toMatchObject({ code: 'manifest_differs', unaccounted: [left.tag] });
  const departed = await carry.onManifest(id, 'departures', { exceptions: [{ tag: left.tag, reason: 'Nobody can find it in the van' }] }).expect(201);
  expect(departed.body).toMatchObject({ state: 'departed', departure: { asExpected: [listed.id], excused: [left.id], unaccounted: [] }, exceptions: [{ kind: 'not-loaded', tag: left.tag }] });
  // Scanned the next time, it is as expected.
  const second = await carry.vehicle();
  await bench.pass(left.id, 'moved', second);
  const next = await carry.manifest(second);
  expect((await carry.onManifest(next.id, 'loadings', { tags: [left.tag] }).expect(201)).body).toMatchObject({ departure: { unaccounted: [] } });
  await carry.onManifest(next.id, 'departures', {}).expect(201);
});

test('of two departures at the same moment one takes place', async () => {
  const { id } = await carry.manifest(await carry.vehicle());
  const answers = await Promise.all([carry.onManifest(id, 'departures', {}), carry.onManifest(id, 'departures', {})]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
});
