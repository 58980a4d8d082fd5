import { notFound } from '#contracts';
import type { Keeper } from '#custody';
import type { Zone } from '#care';
import type { UseCaseCall } from '../call.js';
import type { PaperKitRecord, SlipRecord, SlipState } from '../ports/paper-kit-store.js';
import type { Stores } from '../ports/work.js';

/** The slips of a kit held against what was keyed: every number is keyed, void, or still missing. */
export interface PaperKitView {
  kit: PaperKitRecord;
  slips: SlipRecord[];
  counts: Record<SlipState, number>;
}

export async function getPaperKit(stores: Stores, _call: UseCaseCall, input: { kitId: string }): Promise<PaperKitView> {
  const kit = await stores.paperKits.find(input.kitId);
  if (!kit) throw notFound('paper kit');
  const slips = await stores.paperKits.slips(kit.id);
  const count = (state: SlipState): number => slips.filter((slip) => slip.state === state).length;
  return { kit, slips, counts: { printed: count('printed'), keyed: count('keyed'), void: count('void') } };
}

/** A place of the site with a sheet of its own. */
export interface PlaceOfKit {
  kind: Keeper['kind'];
  name: string;
  code: string;
  zone: Zone | null;
}

/** What is printed. */
export interface PaperKitToPrint {
  kit: PaperKitRecord;
  incidentName: string;
  codes: string[];
  stations: PlaceOfKit[];
  places: PlaceOfKit[];
}

export async function paperKitToPrint(stores: Stores, _call: UseCaseCall, input: { kitId: string }): Promise<PaperKitToPrint> {
  const kit = await stores.paperKits.find(input.kitId);
  if (!kit) throw notFound('paper kit');
  const all: PlaceOfKit[] = [];
  for (const keeper of await stores.stockTakes.placesOf(kit.siteId)) {
    const place = keeper.kind === 'container' ? null : await stores.places.find(kit.incidentId, keeper);
    if (place) all.push({ kind: keeper.kind, name: place.name || place.code, code: place.code, zone: place.zone });
  }
  const sorted = all.toSorted((a, b) => (a.kind === b.kind ? (a.code < b.code ? -1 : 1) : a.kind < b.kind ? -1 : 1));
  return {
    kit, incidentName: (await stores.labelTemplates.incidentName(kit.incidentId)) ?? '', codes: (await stores.paperKits.slips(kit.id)).map(({ tagCode }) => tagCode),
    stations: sorted.filter(({ kind }) => kind === 'station'), places: sorted.filter(({ kind }) => kind !== 'station'),
  };
}
