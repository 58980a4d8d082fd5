import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, reserveTestTags } from '#testing';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a thing that got wet tomorrow, or after it came, is refused with both faults, and its tag stays free', async () => {
  const household = await bench.household();
  const [tag] = await reserveTestTags(bench.network, bench.incident, 1);
  const body = { householdId: household.id, siteId: bench.incident.site(), tag, description: 'Quilt', sizeClass: 'double-quilt' };
  const before = await networkDigest(bench.server.admin, bench.network.networkId, ['idempotency_record']);
  const refused = await bench.network.post(`/v1/incidents/${bench.incident.id}/items`, { ...body, wettedAt: '2026-05-09T09:00:00Z', arrivedAt: '2026-05-09T06:00:00Z' }).expect(422);
  expect(refused.body.code).toBe('observations_contradict');
  expect(refused.body.errors.map(({ pointer, code }: { pointer: string; code: string }) => `${pointer} ${code}`)).toEqual(['#/wettedAt wetted_ahead', '#/arrivedAt arrived_before_wetted']);
  expect(await networkDigest(bench.server.admin, bench.network.networkId, ['idempotency_record'])).toEqual(before);
  await bench.network.post(`/v1/incidents/${bench.incident.id}/items`, body).expect(201);
});
