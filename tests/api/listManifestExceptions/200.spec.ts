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

test('each has an owner and an age, the oldest unsettled one first', async () => {
  const household = await bench.household();
  const items = [await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household)];
  const startMs = bench.server.clock.nowMs();
  for (const [index, item] of items.entries()) {
    bench.server.clock.set(startMs + index * 30 * 60_000);
    const { id } = await carry.manifest(await carry.vehicle(), [item.tag]);
    await carry.onManifest(id, 'departures', { exceptions: [{ tag: item.tag, reason: 'Still drips', ownerId: carry.person('P3') }] }).expect(201);
  }
  bench.server.clock.set(startMs + 90 * 60_000);
  const first = (await carry.exceptions('?limit=2').expect(200)).body;
  const second = (await carry.exceptions(`?limit=2&cursor=${encodeURIComponent(first.nextCursor)}`).expect(200)).body;
  const all = [...first.items, ...second.items];
  expect(all.map(({ thingId, ageMinutes, ownerId, kind }) => [thingId, ageMinutes, ownerId, kind])).toEqual(items.map(({ id }, index) => [id, 90 - index * 30, carry.person('P3'), 'not-loaded']));
  await bench.network.post(`/v1/manifest-exceptions/${all[0].id}/settlements`, { personId: carry.person('P3'), settlement: 'Went on the second trip' }).expect(201);
  expect((await carry.exceptions().expect(200)).body.items.map(({ thingId }: { thingId: string }) => thingId)).toEqual([items[1]?.id, items[2]?.id]);
  expect((await carry.exceptions('?settled=true').expect(200)).body.items.map(({ thingId }: { thingId: string }) => thingId)).toEqual([items[1]?.id, items[2]?.id, items[0]?.id]);
});
