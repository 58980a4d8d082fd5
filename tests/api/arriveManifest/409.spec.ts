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

const arrive = (id: string, body: object) => carry.onManifest(id, 'arrivals', { personId: carry.person('P5'), ...body });

test('it arrives after it departed, once, and somewhere', async () => {
  const { id } = await carry.manifest(await carry.vehicle());
  const to = carry.storeArea();
  expect((await arrive(id, { tags: [], to }).expect(409)).body).toMatchObject({ code: 'manifest_state', state: 'loading' });
  await carry.onManifest(id, 'departures', {}).expect(201);
  expect((await arrive(id, { tags: [] }).expect(422)).body.errors[0]).toMatchObject({ code: 'place_needed', pointer: '#/to' });
  expect((await arrive(id, { tags: [], to: { kind: 'shelf', id: bench.incident.id } }).expect(422)).body.code).toBe('reference_unknown');
  await arrive(id, { tags: [], to }).expect(201);
  expect((await arrive(id, { tags: [], to }).expect(409)).body).toMatchObject({ code: 'manifest_state', state: 'arrived' });
});
