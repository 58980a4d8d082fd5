import { arrivalDifference, manifestDifference, sameKeeper, type Keeper, type ManifestDifference } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ManifestExceptionRecord, ManifestLine, ManifestRecord, ManifestState } from '../ports/manifest-store.js';
import type { Stores } from '../ports/work.js';
import { claimRoom } from './capacity.js';
import { holdCompany, refuseCompany, refuseCompanyOfContents } from './company.js';
import { recordContainer, refuseContainerAt } from './containers.js';
import { holdForMove, loadOf } from './move-container.js';
import { recordCustody } from './record-custody.js';
import { aboutThing, type LockedThings, type NamedThing } from './things.js';

export interface ManifestView {
  manifest: ManifestRecord;
  departure: ManifestDifference;
  /** Null before it has departed. */
  arrival: { arrived: string[]; missing: string[]; extra: string[] } | null;
  exceptions: ManifestExceptionRecord[];
}

/** A manifest in the state that a command needs, locked. @throws Problem not_found, manifest_state */
export async function lockManifest(stores: Stores, manifestId: string, state: ManifestState): Promise<ManifestRecord> {
  const manifest = await stores.manifests.lock(manifestId);
  if (!manifest) throw notFound('manifest');
  if (manifest.state === state) return manifest;
  const how = { loading: 'is still being loaded', departed: 'has departed', arrived: 'has arrived' }[manifest.state];
  throw new Problem('manifest_state', `This manifest ${how}, so this cannot follow; nothing was changed. Read it; what goes on another trip gets a manifest of its own.`, { members: { state: manifest.state } });
}

/** On record aboard: scanned onto it, and not passed on to anybody since. */
export function isAboard({ loadedAtMs, keeper }: ManifestLine, { carrier }: Pick<ManifestRecord, 'carrier'>): boolean {
  return loadedAtMs !== null && sameKeeper(keeper, carrier);
}

/**
 * While it is loaded, with a line for whatever the record has aboard though nobody put it on this list: left from an earlier trip, or
 * moved there by a report. It leaves with the carrier, so it is expected, and is scanned or named like everything else.
 */
export async function withAllAboard(stores: Stores, manifest: ManifestRecord): Promise<ManifestRecord> {
  if (manifest.state !== 'loading') return manifest;
  const listed = new Set(manifest.lines.map(({ id }) => id));
  const others = (await stores.manifests.thingsOn(manifest.carrier)).filter(({ id }) => !listed.has(id));
  return { ...manifest, lines: [...manifest.lines, ...others.map((thing) => ({ ...thing, expected: true, loadedAtMs: null, loadedBy: null, unloadedAtMs: null, unloadedBy: null, keeper: manifest.carrier }))] };
}

/** What differs at the departure: before it, of what is aboard now; after it, of what left. */
export function departureOf(manifest: ManifestRecord, named: readonly string[]): ManifestDifference {
  const { lines, state } = manifest;
  const scanned = lines.filter((line) => (state === 'loading' ? isAboard(line, manifest) : line.loadedAtMs !== null));
  return manifestDifference({ expected: lines.filter(({ expected }) => expected).map(({ id }) => id), scanned: scanned.map(({ id }) => id), named });
}

export async function viewOfManifest(stores: Stores, saved: ManifestRecord): Promise<ManifestView> {
  const manifest = await withAllAboard(stores, saved);
  const exceptions = await stores.manifests.exceptionsOf(manifest.id);
  const idsOf = (kind: ManifestExceptionRecord['kind']) => exceptions.filter((one) => one.kind === kind).map(({ thingId }) => thingId);
  const loaded = manifest.lines.filter(({ loadedAtMs }) => loadedAtMs !== null).map(({ id }) => id);
  const unloaded = manifest.lines.filter(({ unloadedAtMs }) => unloadedAtMs !== null).map(({ id }) => id);
  const lines = manifest.lines.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  return {
    manifest: { ...manifest, lines }, exceptions, departure: departureOf(manifest, idsOf('not-loaded')),
    arrival: manifest.state === 'loading' ? null : arrivalDifference(loaded, [...unloaded, ...idsOf('extra')]),
  };
}

/** Who did it and when, for the references of the events. */
export interface Scan {
  manifestId: string;
  personId: string;
  occurredAtMs: number;
}

/** A thing passes to another keeper because it was scanned on or off; one that is there already only stays. */
export async function moveThing(stores: Stores, call: UseCaseCall, thing: NamedThing & { tagCode: string }, to: Keeper, { items, containers }: LockedThings, scan: Scan): Promise<void> {
  const refs = { manifestId: scan.manifestId, personId: scan.personId };
  const [item, container] = [items.get(thing.id), containers.get(thing.id)];
  await aboutThing(thing, async () => {
    if (item && !sameKeeper(item.keeper, to)) {
      await holdCompany(stores, item, to);
      await refuseCompany(stores, item, to, await claimRoom(stores, item, to));
      await recordCustody(stores, call, item, { kind: 'moved', from: item.keeper, to, refs, occurredAtMs: scan.occurredAtMs });
    } else if (container && !sameKeeper(container.keeper, to)) {
      refuseContainerAt(to);
      const held = await holdForMove(stores, container.id, to);
      await refuseCompanyOfContents(stores, held, to, await claimRoom(stores, await loadOf(stores, held), to));
      await recordContainer(stores, call, held, { kind: held.seq === 0 ? 'taken-in' : 'moved', from: held.keeper, to, refs, occurredAtMs: scan.occurredAtMs });
    }
  });
}

export function exceptionOf(call: UseCaseCall, manifest: ManifestRecord, line: Pick<ManifestLine, 'thing' | 'id' | 'tagCode'>, kind: ManifestExceptionRecord['kind'], owner: { ownerId: string; reason: string }): ManifestExceptionRecord {
  return {
    id: call.env.newId(), incidentId: manifest.incidentId, manifestId: manifest.id, thing: line.thing, thingId: line.id, tagCode: line.tagCode, kind, ...owner,
    openedAtMs: call.env.nowMs, settledAtMs: null, settledBy: null, settlement: '',
  };
}
