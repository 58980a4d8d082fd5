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

test('how it was worked off is said once, and its clock stops', async () => {
  const item = await bench.takeIn(await bench.household());
  const manifest = await carry.manifest(await carry.vehicle(), [item.tag]);
  await carry.onManifest(manifest.id, 'departures', { exceptions: [{ tag: item.tag, reason: 'Still drips' }] }).expect(201);
  const { id } = (await carry.exceptions().expect(200)).body.items[0];
  const settle = (change: object = {}) => bench.network.post(`/v1/manifest-exceptions/${id}/settlements`, { personId: carry.person('P3'), settlement: 'Went on the second trip', ...change });
  expect((await settle({ personId: bench.incident.id }).expect(422)).body.code).toBe('reference_unknown');
  bench.server.clock.set(bench.server.clock.nowMs() + 10 * 60_000);
  expect((await settle().expect(201)).body).toMatchObject({ id, settledBy: carry.person('P3'), settlement: 'Went on the second trip', ageMinutes: 10 });
  bench.server.clock.set(bench.server.clock.nowMs() + 10 * 60_000);
  expect((await settle({ settlement: 'Something else' }).expect(409)).body).toMatchObject({ code: 'manifest_state', state: 'settled' });
  expect((await carry.exceptions('?settled=true').expect(200)).body.items[0]).toMatchObject({ settlement: 'Went on the second trip', ageMinutes: 10 });
});
