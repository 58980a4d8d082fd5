/** The sheets of a kit: a log for each station of the site and a sheet for each of its places. */
import type { Keeper } from '#custody';
import type { KeyedLine, LineNumber, PaperSheetRecord } from '../ports/paper-kit-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';

/** Numbers from 1: stations first, then places, each kind by its codes. A container has no sheet of its own. */
export async function sheetsForSite(stores: Stores, incidentId: string, siteId: string): Promise<PaperSheetRecord[]> {
  const found: PlaceRecord[] = [];
  for (const keeper of await stores.stockTakes.placesOf(siteId)) {
    const place = keeper.kind === 'container' ? null : await stores.places.find(incidentId, keeper);
    if (place) found.push(place);
  }
  return found.toSorted(bySheet).map(({ keeper }, index) => ({ sheetNo: index + 1, place: keeper }));
}

function bySheet(a: PlaceRecord, b: PlaceRecord): number {
  const key = ({ keeper, code }: PlaceRecord): string[] => [isLog(keeper) ? '0' : '1', keeper.kind, code, keeper.id];
  const [one, other] = [key(a), key(b)];
  const at = one.findIndex((part, index) => part !== other[index]);
  return at === -1 ? 0 : (one[at] ?? '') < (other[at] ?? '') ? -1 : 1;
}

/** Stations keep a log of steps, places a sheet of what comes and goes. */
export function isLog(place: Keeper): boolean {
  return place.kind === 'station';
}

/** Numbers between the first and the last keyed line of a part that nobody has keyed: overlooked, or written nowhere. */
export function gapsIn(lines: readonly KeyedLine[]): Pick<LineNumber, 'part' | 'lineNo'>[] {
  const parts = new Map<number, Set<number>>();
  for (const { part, lineNo } of lines) parts.set(part, (parts.get(part) ?? new Set()).add(lineNo));
  return [...parts].toSorted(([a], [b]) => a - b).flatMap(([part, keyed]) => Array.from({ length: Math.max(...keyed) }, (_, index) => index + 1).filter((lineNo) => !keyed.has(lineNo)).map((lineNo) => ({ part, lineNo })));
}
