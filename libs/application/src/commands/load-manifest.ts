import { sameKeeper, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { claimRoom } from '../custody/capacity.js';
import { lockManifest, moveThing, viewOfManifest, type ManifestView } from '../custody/manifests.js';
import { openIncidentOf, refuseClosed } from '../custody/open-incident.js';
import { distinct, lockThings, thingsOfTags, type LockedThings, type NamedThing } from '../custody/things.js';
import type { ManifestLine, ManifestRecord } from '../ports/manifest-store.js';
import type { Stores } from '../ports/work.js';

export interface CreateManifestInput {
  incidentId: string;
  carrier: Keeper;
  fromSiteId: string;
  toSiteId: string;
  personId: string;
  expected: string[];
}

/** Opens a manifest: what is to travel, on what, from where to where. Nothing moves yet. */
export async function createManifest(stores: Stores, call: UseCaseCall, input: CreateManifestInput): Promise<ManifestView> {
  const { incidentId, carrier, fromSiteId, toSiteId } = input;
  await openIncidentOf(stores, incidentId);
  await personOf(stores, incidentId, input.personId);
  await siteOf(stores, incidentId, fromSiteId, '#/fromSiteId');
  await siteOf(stores, incidentId, toSiteId, '#/toSiteId');
  await refuseCarrier(stores, incidentId, carrier);
  const things = distinct(await thingsOfTags(stores, incidentId, input.expected.map((text, index) => ({ text, pointer: `#/expected/${index}` }))));
  const itself = things.find(({ id }) => id === carrier.id);
  if (itself) throw new Problem('command_refused', 'The carrier is not among what it carries. Take its tag off the list.', { errors: [{ detail: 'is the carrier itself', code: 'inside_itself', pointer: itself.pointer }] });
  const locked = await lockThings(stores, incidentId, things);
  const manifest: ManifestRecord = {
    id: call.env.newId(), incidentId, carrier, fromSiteId, toSiteId, personId: input.personId, state: 'loading', createdAtMs: call.env.nowMs,
    departedAtMs: null, departedBy: null, arrivedAtMs: null, arrivedBy: null, version: 1, lines: things.map((thing) => newLine(thing, locked, true)),
  };
  await stores.manifests.insert(manifest);
  return viewOfManifest(stores, manifest);
}

async function siteOf(stores: Stores, incidentId: string, siteId: string, pointer: string): Promise<void> {
  const site = await stores.places.site(siteId);
  if (site?.incidentId !== incidentId) throw new Problem('reference_unknown', 'There is no site with this id in the incident. Take the id from the layout of the incident.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer }] });
}

async function refuseCarrier(stores: Stores, incidentId: string, carrier: Keeper): Promise<void> {
  if (carrier.kind !== 'vehicle' && carrier.kind !== 'container') throw new Problem('command_refused', 'A manifest is of a vehicle or of a container.', { errors: [{ detail: 'is neither a vehicle nor a container', code: 'keeper_not_offered', pointer: '#/carrier/kind' }] });
  // Says in its own words what is not there.
  await claimRoom(stores, { incidentId, keeper: carrier, areaDm2: 0, volumeL: 0 }, carrier, '#/carrier');
  const loading = await stores.manifests.loadingOf(carrier);
  if (loading !== null) throw new Problem('already_exists', 'This carrier is being loaded for another trip. Go on with that manifest, or let it depart first.', { members: { manifestId: loading } });
}

function newLine({ kind, id }: NamedThing, { items, containers }: LockedThings, expected: boolean): ManifestLine {
  const thing = kind === 'item' ? items.get(id) : containers.get(id);
  return { thing: kind, id, tagCode: thing?.tagCode ?? '', expected, loadedAtMs: null, loadedBy: null, unloadedAtMs: null, unloadedBy: null, keeper: thing?.keeper ?? null };
}

export interface LoadManifestInput {
  manifestId: string;
  personId: string;
  tags: string[];
  loadedAtMs: number | null;
}

/** Scans things onto the carrier, which keeps them from then on. A thing that is scanned twice is on it once. */
export async function loadManifest(stores: Stores, call: UseCaseCall, input: LoadManifestInput): Promise<ManifestView> {
  const { personId } = input;
  const manifest = await lockManifest(stores, input.manifestId, 'loading');
  const { carrier, incidentId } = manifest;
  await refuseClosed(stores, manifest);
  await personOf(stores, incidentId, personId);
  const occurredAtMs = momentOf(call, input.loadedAtMs, '#/loadedAt');
  const things = distinct(await thingsOfTags(stores, incidentId, input.tags.map((text, index) => ({ text, pointer: `#/tags/${index}` }))));
  const locked = await lockThings(stores, incidentId, things);
  const lines = new Map(manifest.lines.map((line) => [line.id, line]));
  for (const thing of things) {
    const line = lines.get(thing.id) ?? newLine(thing, locked, false);
    await moveThing(stores, call, { ...thing, tagCode: line.tagCode }, carrier, locked, { manifestId: manifest.id, personId, occurredAtMs });
    const again = line.loadedAtMs !== null && sameKeeper(line.keeper, carrier);
    lines.set(thing.id, { ...line, keeper: carrier, ...(again ? {} : { loadedAtMs: occurredAtMs, loadedBy: personId }) });
  }
  const loaded = { ...manifest, lines: [...lines.values()] };
  const version = await stores.manifests.save(loaded);
  return viewOfManifest(stores, { ...loaded, version });
}
