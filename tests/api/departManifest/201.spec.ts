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

test('what stays behind is named with a reason and an owner; what nobody expected is an exception, too', async () => {
  const household = await bench.household();
  const [goes, stays, stranger] = [await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household)];
  const { id } = await carry.manifest(await carry.vehicle(), [goes.tag, stays.tag]);
  await carry.onManifest(id, 'loadings', { tags: [goes.tag, stranger.tag] }).expect(201);
  const { body } = await carry.onManifest(id, 'departures', { exceptions: [{ tag: stays.tag, reason: 'Still drips; goes tomorrow', ownerId: carry.person('P3') }] }).expect(201);
  expect(body).toMatchObject({ state: 'departed', departedBy: carry.person('P2'), departure: { asExpected: [goes.id], excused: [stays.id], unaccounted: [], unexpected: [stranger.id] } });
  expect(body.exceptions.map(({ kind, thingId, ownerId, reason }: Record<string, unknown>) => [kind, thingId, ownerId, reason])).toEqual([
    ['not-loaded', stays.id, carry.person('P3'), 'Still drips; goes tomorrow'], ['not-expected', stranger.id, carry.person('P2'), ''],
  ]);
  expect(body.arrival).toEqual({ arrived: [], missing: [goes.id, stranger.id].sort(), extra: [] });
});

test('what was scanned on and taken off again is not aboard', async () => {
  const household = await bench.household();
  const [goes, stranger] = [await bench.takeIn(household), await bench.takeIn(household)];
  const { id } = await carry.manifest(await carry.vehicle(), [goes.tag]);
  await carry.onManifest(id, 'loadings', { tags: [goes.tag, stranger.tag] }).expect(201);
  for (const thing of [goes, stranger]) await bench.pass(thing.id, 'moved', bench.holding('clean'));
  expect((await carry.onManifest(id, 'departures', {}).expect(409)).body).toMatchObject({ code: 'manifest_differs', unaccounted: [goes.tag] });
  const { body } = await carry.onManifest(id, 'departures', { exceptions: [{ tag: goes.tag, reason: 'Taken off again' }] }).expect(201);
  expect(body.departure).toEqual({ asExpected: [], excused: [goes.id], unaccounted: [], unexpected: [] });
  expect(body.arrival).toEqual({ arrived: [], missing: [], extra: [] });
});
