import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type HouseholdOnTest } from '#testing';
import { assignmentsOf, planNow, withBenches } from '../unit/plan-problem/support/runs.js';
import { Workbench } from '../api/support/workbench.js';

let bench: Workbench;
let household: HouseholdOnTest;
beforeAll(async () => {
  bench = await Workbench.open(withBenches);
  household = await bench.household();
  for (const code of ['X1', 'X2']) await bench.network.post(`/v1/incidents/${bench.incident.id}/drying-places`, { dryingRoomId: bench.incident.room('ROOM'), code, name: `Screen ${code}`, arrangement: 'screen', areaM2: 20 }).expect(201);
});
afterAll(() => bench.close());

interface Order { itemId: string; step: string; goesTo: { kind: string; id: string } | null }

/** Only the treatment here is allowed, so that it hangs here or not at all. */
async function onlyTreat(itemId: string): Promise<void> {
  for (const scope of ['refer', 'freeze']) await bench.network.post(`/v1/households/${household.id}/consents`, { scope, given: false, manner: 'spoken', itemId }).expect(201);
}

/** A tested garment that has been rinsed and blotted: hanging comes next. */
async function rinsed(): Promise<string> {
  const { id } = await bench.testedQuilt(household, { sizeClass: 'garment' });
  await onlyTreat(id);
  for (const step of ['rinse', 'blot']) await bench.report(id, step).expect(201);
  return id;
}

/** A letter from the same river, which is laid out as it is. */
async function unrinsed(): Promise<string> {
  const { id } = await bench.takeIn(household, { sizeClass: 'a4-sheet', materialClass: 'paper-uncoated' });
  await onlyTreat(id);
  await bench.assess(id, { wetState: 'damp', fibre: 'unknown' }).expect(201);
  await bench.report(id, 'stabilise').expect(201);
  return id;
}

const several = async (count: number, make: () => Promise<string>): Promise<string[]> => {
  const made: string[] = [];
  for (let i = 0; i < count; i += 1) made.push(await make());
  return made;
};

const toHang = async () => (await bench.network.get(`/v1/sites/${bench.incident.site()}/drying-list?limit=100`).expect(200)).body.toHang as Order[];

test('unrinsed and rinsed things are planned apart, and every order to hang is taken just as it stands', async () => {
  const [garments, letters] = [await several(4, rinsed), await several(3, unrinsed)];
  await planNow(bench.server, bench.network, bench.incident);
  const drying = (await assignmentsOf(bench.network, bench.incident)).filter(({ step }) => step === 'dry');
  expect(drying.map(({ itemId }) => itemId).sort()).toEqual([...garments, ...letters].sort());
  const placesOf = (ids: readonly string[]) => drying.filter(({ itemId }) => ids.includes(itemId)).map(({ dryingPlaceId }) => dryingPlaceId);
  expect(placesOf(garments).filter((place) => placesOf(letters).includes(place))).toEqual([]);
  const { body } = await bench.network.get(`/v1/items/${letters[0]}/plan-explanation`).expect(200);
  expect(JSON.stringify(body.inWords ?? body)).toContain('things lie there at that time that it must not be with');

  const orders = await toHang();
  expect(orders.map(({ itemId, step }) => [itemId, step]).sort()).toEqual([...garments, ...letters].map((id) => [id, 'dry']).sort());
  for (const { itemId, goesTo } of orders) {
    const { keeper } = await bench.read(itemId);
    await bench.network.post(`/v1/items/${itemId}/custody-events`, { kind: 'drying-started', from: keeper, to: { kind: 'drying-place', id: goesTo?.id }, personId: bench.incident.person('P2') }).expect(201);
  }
});

test('where every place with room holds what it must not be with, the plan names that, and a freer screen is what would help', async () => {
  // Only the place where the garments hang has room left.
  const { rows } = await bench.server.admin.query<{ keeper_id: string }>("select distinct keeper_id from item where network_id = $1 and keeper_kind = 'drying-place' and size_class = 'garment'", [bench.network.networkId]);
  await bench.server.admin.query('update drying_place set area_dm2 = 1 where network_id = $1 and id <> all ($2)', [bench.network.networkId, rows.map(({ keeper_id }) => keeper_id)]);
  const late = await unrinsed();
  // Its clock ends before they are dry.
  await bench.server.admin.query("update triage_result set start_by = '2026-05-09T09:00:00Z' where network_id = $1 and item_id = $2", [bench.network.networkId, late]);
  await planNow(bench.server, bench.network, bench.incident);
  const { body } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan/unplanned`).expect(200);
  expect(body.items.filter(({ stabilised }: { stabilised: boolean }) => !stabilised)).toMatchObject([{ itemId: late, blockedBy: { kind: 'company', text: expect.stringContaining('must not lie with') } }]);
  const { body: revision } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan`).expect(200);
  expect(revision.blocked).toMatchObject([{ kind: 'company', what: 'Drying room', items: 1 }]);
  const { body: spanish } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan/unplanned`, { 'accept-language': 'es' }).expect(200);
  expect(JSON.stringify(spanish.items)).toContain('algo con lo que no debe estar');

  // A screen of its own: the plan takes it at once.
  await bench.network.post(`/v1/incidents/${bench.incident.id}/drying-places`, { dryingRoomId: bench.incident.room('ROOM'), code: 'X3', name: 'Screen X3', arrangement: 'screen', areaM2: 2 }).expect(201);
  await planNow(bench.server, bench.network, bench.incident);
  expect((await toHang()).map(({ itemId }) => itemId)).toEqual([late]);
});
