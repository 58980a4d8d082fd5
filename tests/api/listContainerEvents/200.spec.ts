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

test('its record is gapless and linked, page by page', async () => {
  const crate = await carry.container();
  await carry.moveContainer(crate.id, crate.keeper, carry.storeArea()).expect(201);
  await carry.moveContainer(crate.id, carry.storeArea(), crate.keeper).expect(201);
  const path = `/v1/containers/${crate.id}/custody-events?limit=2`;
  const first = (await bench.network.get(path).expect(200)).body;
  const second = (await bench.network.get(`${path}&cursor=${encodeURIComponent(first.nextCursor)}`).expect(200)).body;
  const events = [...first.items, ...second.items];
  expect(events.map(({ seq, kind }: { seq: number; kind: string }) => [seq, kind])).toEqual([[1, 'taken-in'], [2, 'moved'], [3, 'moved']]);
  expect(events.slice(1).map(({ prevHash }: { prevHash: string }) => prevHash)).toEqual(events.slice(0, 2).map(({ hash }: { hash: string }) => hash));
  expect(second.nextCursor).toBeNull();
});
