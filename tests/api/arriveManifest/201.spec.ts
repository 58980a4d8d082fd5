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

async function departed(count: number) {
  const household = await bench.household();
  const items = [];
  for (let n = 0; n < count; n += 1) items.push(await bench.takeIn(household));
  const van = await carry.vehicle();
  const tags = items.map(({ tag }) => tag);
  const { id } = await carry.manifest(van, tags);
  await carry.onManifest(id, 'loadings', { tags }).expect(201);
  await carry.onManifest(id, 'departures', {}).expect(201);
  return { id, items, van, household };
}
const arrive = (id: string, body: object) => carry.onManifest(id, 'arrivals', { personId: carry.person('P5'), ...body });

test('what comes off is at the store; what does not is reported missing, with somebody who looks for it', async () => {
  const { id, items: [first, second], van } = await departed(2);
  if (!first || !second) throw new Error('two items');
  const to = await carry.shelf();
  const { body } = await arrive(id, { tags: [first.tag], to, exceptions: [{ tag: second.tag, reason: 'Not in the van', ownerId: carry.person('P6') }] }).expect(201);
  expect(body).toMatchObject({ state: 'arrived', arrivedBy: carry.person('P5'), arrival: { arrived: [first.id], missing: [second.id], extra: [] } });
  expect(body.exceptions).toEqual([expect.objectContaining({ kind: 'missing', thingId: second.id, ownerId: carry.person('P6'), reason: 'Not in the van', settledAt: null })]);
  expect((await bench.read(first.id)).keeper).toEqual(to);
  expect(await bench.read(second.id)).toMatchObject({ keeper: van, missing: true });
  expect(await carry.reconciled()).toEqual(ALL_WELL);
});

test('it is scanned off in parts; what is left counts only when all is said to be off', async () => {
  const { id, items: [first, second] } = await departed(2);
  const to = carry.storeArea();
  const part = await arrive(id, { tags: [first?.tag], to, complete: false }).expect(201);
  expect(part.body).toMatchObject({ state: 'departed', exceptions: [], arrival: { arrived: [first?.id], missing: [second?.id] } });
  const rest = await arrive(id, { tags: [first?.tag, second?.tag], to }).expect(201);
  expect(rest.body).toMatchObject({ state: 'arrived', exceptions: [], arrival: { arrived: [first?.id, second?.id].sort(), missing: [], extra: [] } });
  expect((await bench.read(first?.id ?? ''))['custodySeq']).toBe(3);
});

test('a thing that nobody had aboard is kept as an exception and as a disputed location, and is not moved', async () => {
  const { id, items: [first], household } = await departed(1);
  const extra = await bench.takeIn(household);
  const to = carry.storeArea();
  const { body } = await arrive(id, { tags: [first?.tag, extra.tag], to }).expect(201);
  expect(body).toMatchObject({ arrival: { arrived: [first?.id], missing: [], extra: [extra.id] }, exceptions: [{ kind: 'extra', thingId: extra.id }] });
  expect(await bench.read(extra.id)).toMatchObject({ keeper: extra.keeper, locationDisputed: true });
  const last = (await bench.network.get(`/v1/items/${extra.id}/custody-events`).expect(200)).body.items.at(-1);
  expect(last).toMatchObject({ kind: 'location-disputed', refs: { claimedKind: 'holding', claimedId: to.id, manifestId: id } });
});

test('what is on record elsewhere by then is not missing', async () => {
  const { id, items: [first] } = await departed(1);
  await bench.pass(first?.id ?? '', 'moved', carry.storeArea());
  const { body } = await arrive(id, { tags: [], to: carry.storeArea() }).expect(201);
  expect(body).toMatchObject({ state: 'arrived', exceptions: [], arrival: { arrived: [first?.id], missing: [] } });
  expect((await bench.read(first?.id ?? ''))['missing']).toBe(false);
});

test('what came in a crate may stay in it', async () => {
  const item = await bench.takeIn(await bench.household());
  const crate = await carry.container();
  const { id } = await carry.manifest({ kind: 'container', id: crate.id }, [item.tag]);
  await carry.onManifest(id, 'loadings', { tags: [item.tag] }).expect(201);
  await carry.onManifest(id, 'departures', {}).expect(201);
  expect((await arrive(id, { tags: [item.tag] }).expect(201)).body).toMatchObject({ state: 'arrived', exceptions: [], arrival: { arrived: [item.id] } });
  expect((await bench.read(item.id)).keeper).toEqual({ kind: 'container', id: crate.id });
});
