import { type AddVehicle, type ChangeVehicle, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { LAYOUT_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { LayoutStore, VehicleRecord, VehicleRide } from '../ports/layout-store.js';
import { codeTaken } from './add-to-layout.js';
import { findUnchanged, openIncident, saveUnchanged, type VersionedTarget } from './change-versioned.js';

/** Adds a vehicle of the incident. One whose rides are known asks for a new plan. */
export async function addVehicle(stores: ConfigStores, call: UseCaseCall, { rides, runs, ...input }: AddVehicle & { incidentId: string }): Promise<VehicleRecord> {
  await openIncident(stores.layout, input.incidentId);
  await checkSites(stores.layout, input.incidentId, rides);
  const vehicle = { id: call.env.newId(), ...input, rides: ridesOf(rides, [], call), runs: runs.map(spanOf), version: 1 };
  if (!(await stores.layout.insertVehicle(vehicle))) throw codeTaken('vehicle of this incident', input.code);
  if (isPlannedWith(vehicle)) await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.vehicleAdded(vehicle.code));
  return vehicle;
}

/** Changes a vehicle's name, what it takes, its rides or when it runs. Whatever a plan reckons with asks for a new one. */
export async function changeVehicle(stores: ConfigStores, call: UseCaseCall, { rides, runs, ...input }: ChangeVehicle & VersionedTarget): Promise<VehicleRecord> {
  const found = await findUnchanged(stores.layout, 'vehicle', input);
  if (rides !== undefined) await checkSites(stores.layout, input.incidentId, rides);
  const vehicle = await saveUnchanged(stores.layout, 'vehicle', input, found, {
    name: input.name, volumeL: input.volumeL, maxLoadKg: input.maxLoadKg,
    rides: rides === undefined ? undefined : ridesOf(rides, found.rides ?? [], call), runs: runs?.map(spanOf),
  });
  if (plannedPart(vehicle) !== plannedPart(found)) await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.vehicleChanged(vehicle.code));
  return vehicle;
}

/** Each ride begins and ends at sites of the incident; all that do not are named together. */
async function checkSites(layout: LayoutStore, incidentId: string, rides: AddVehicle['rides']): Promise<void> {
  if (rides === null) return;
  const named = new Set(rides.flatMap(({ fromSiteId, toSiteId }) => [fromSiteId, toSiteId]));
  const known = new Set<string>();
  for (const id of named) if ((await layout.site(incidentId, id)) !== null) known.add(id);
  const errors = rides.flatMap((ride, index) => (['fromSiteId', 'toSiteId'] as const)
    .filter((end) => !known.has(ride[end]))
    .map((end) => ({ detail: 'names no site of this incident', code: 'reference_unknown', pointer: `#/rides/${index}/${end}` })));
  if (errors.length > 0) throw new Problem('reference_unknown', 'A ride begins or ends at a site that does not belong to the incident. Take the ids from the layout.', { errors });
}

/** A ride between the same two sites keeps its id, so that plans from before still name it. */
function ridesOf(rides: AddVehicle['rides'], before: readonly VehicleRide[], call: UseCaseCall): VehicleRide[] | null {
  return rides?.map((ride) => ({
    id: before.find(({ fromSiteId, toSiteId }) => fromSiteId === ride.fromSiteId && toSiteId === ride.toSiteId)?.id ?? call.env.newId(), ...ride,
  })) ?? null;
}

function spanOf({ startsAt, endsAt }: AddVehicle['runs'][number]): VehicleRecord['runs'][number] {
  return { fromMs: Date.parse(startsAt), toMs: Date.parse(endsAt) };
}

/** Without a load nobody can say how much goes into it, so a plan leaves it alone. */
function isPlannedWith({ rides, maxLoadKg }: VehicleRecord): boolean {
  return maxLoadKg !== null && rides !== null && rides.length > 0;
}

/** What a plan takes of it, to be compared; nothing while it takes nothing. Columns of JSON come back with their members in another order. */
function plannedPart(vehicle: VehicleRecord): string {
  if (!isPlannedWith(vehicle)) return '';
  return JSON.stringify([vehicle.maxLoadKg, vehicle.rides?.map(({ id, fromSiteId, toSiteId, minutes }) => [id, fromSiteId, toSiteId, minutes]), vehicle.runs.map(({ fromMs, toMs }) => [fromMs, toMs])]);
}
