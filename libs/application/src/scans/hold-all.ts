import type { Keeper } from '#custody';
import type { Stores } from '../ports/work.js';
import type { NamedScan } from './one-scan.js';

/**
 * Locks everything that the scans may touch before the first is decided: things in the order of their ids, then containers, then
 * places. Two devices that scan the same things in other orders wait for each other and never in a circle.
 */
export async function holdAll(stores: Stores, incidentId: string, scans: readonly Pick<NamedScan, 'named'>[]): Promise<void> {
  const items = await stores.items.lockMany(idsOf(scans.map(({ named }) => named.itemId)));
  const containers = [...scans.map(({ named }) => named.containerId), ...[...scans.map(({ named }) => named.place), ...items.map(({ keeper }) => keeper)].map((keeper) => (keeper?.kind === 'container' ? keeper.id : null))];
  await stores.containers.lockMany(idsOf(containers), 'update');
  const places = new Map(scans.flatMap(({ named: { place } }) => (place !== null && COUNTED.has(place.kind) ? [[`${place.kind}/${place.id}`, place] as const] : [])));
  for (const place of [...places.entries()].sort(byKey).map(([, keeper]) => keeper)) await stores.places.lock(incidentId, place);
}

/** Places that are counted or looked into before something comes; a waiting area takes whatever stands in front of it. */
const COUNTED: ReadonlySet<Keeper['kind']> = new Set(['drying-place', 'freezer', 'shelf', 'vehicle']);

function byKey([a]: readonly [string, Keeper], [b]: readonly [string, Keeper]): number {
  return a < b ? -1 : 1;
}

function idsOf(ids: readonly (string | null)[]): string[] {
  return [...new Set(ids.filter((id) => id !== null))].sort();
}
