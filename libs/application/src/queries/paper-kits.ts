import { notFound } from '#contracts';
import type { Keeper } from '#custody';
import type { Zone } from '#care';
import type { UseCaseCall } from '../call.js';
import { gapsIn } from '../paper-mode/sheets.js';
import type { LineNumber, PaperKitRecord, PaperSheetRecord, SlipRecord, SlipState } from '../ports/paper-kit-store.js';
import type { Stores } from '../ports/work.js';

/** A sheet of a kit with what was keyed from it. */
export interface PaperSheetView extends PaperSheetRecord {
  keyed: number;
  void: number;
  /** Numbers before the last keyed line of a part that nobody has keyed. */
  gaps: Pick<LineNumber, 'part' | 'lineNo'>[];
}

/** The slips of a kit held against what was keyed: every number is keyed, void, or still missing. */
export interface PaperKitView {
  kit: PaperKitRecord;
  slips: SlipRecord[];
  counts: Record<SlipState, number>;
  sheets: PaperSheetView[];
}

export async function getPaperKit(stores: Stores, _call: UseCaseCall, input: { kitId: string }): Promise<PaperKitView> {
  const kit = await stores.paperKits.find(input.kitId);
  if (!kit) throw notFound('paper kit');
  const slips = await stores.paperKits.slips(kit.id);
  const count = (state: SlipState): number => slips.filter((slip) => slip.state === state).length;
  const lines = await stores.paperKits.lines(kit.id);
  const sheets = (await stores.paperKits.sheets(kit.id)).map((sheet) => {
    const own = lines.filter(({ sheetNo }) => sheetNo === sheet.sheetNo);
    const keyed = own.filter(({ state }) => state === 'keyed').length;
    return { ...sheet, keyed, void: own.length - keyed, gaps: gapsIn(own) };
  });
  return { kit, slips, counts: { printed: count('printed'), keyed: count('keyed'), void: count('void') }, sheets };
}

/** A place of the site with a sheet of its own. */
export interface PlaceOfKit {
  sheetNo: number;
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
  for (const sheet of await stores.paperKits.sheets(kit.id)) {
    const place = await stores.places.find(kit.incidentId, sheet.place);
    if (place) all.push({ sheetNo: sheet.sheetNo, kind: sheet.place.kind, name: place.name || place.code, code: place.code, zone: place.zone });
  }
  return {
    kit, incidentName: (await stores.labelTemplates.incidentName(kit.incidentId)) ?? '', codes: (await stores.paperKits.slips(kit.id)).map(({ tagCode }) => tagCode),
    stations: all.filter(({ kind }) => kind === 'station'), places: all.filter(({ kind }) => kind !== 'station'),
  };
}
