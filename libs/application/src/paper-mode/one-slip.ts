/** One slip of paper taken in: the household, the thing with its tag, and what the owner ticked. */
import type { MaterialClass, Significance, WaterKind } from '#care';
import type { StandardItemKind } from '#climate';
import type { Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { takeInHousehold, toRecord } from '../commands/take-in-household.js';
import { takeInItem } from '../commands/take-in-item.js';
import type { ConsentScope } from '../ports/consent-store.js';
import type { HouseholdContact, HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { PaperKitRecord, VoidReason } from '../ports/paper-kit-store.js';
import type { Stores } from '../ports/work.js';

/** What stands on a slip, as somebody reads it. */
export interface SlipToKey {
  slipNo: number;
  /** Why it holds nothing; null for a slip that was written. */
  void: VoidReason | null;
  /** The time that was written on it; null where nobody wrote one. */
  writtenAtMs: number | null;
  household: { code: string; language: string; contact: HouseholdContact | null } | null;
  description: string;
  familyWords: string;
  materialClass: MaterialClass;
  sizeClass: StandardItemKind | null;
  significance: Significance;
  count: number;
  water: WaterKind | null;
  wettedAtMs: number | null;
  /** Where it was put down; the dirty waiting area of the site when null. */
  to: Keeper | null;
  /** Boxes that were ticked; what was left open was not asked. */
  consents: { scope: Exclude<ConsentScope, 'release'>; given: boolean }[];
}

export interface SlipOfKit {
  kit: PaperKitRecord;
  slip: SlipToKey;
  tagCode: string;
  personId: string;
  pointer: string;
}

/** @throws Problem whatever is wrong with the slip */
export async function keyOneSlip(stores: Stores, call: UseCaseCall, { kit, slip, tagCode, personId, pointer }: SlipOfKit): Promise<ItemRecord> {
  const missing = [...(slip.household === null ? ['household'] : []), ...(slip.description === '' ? ['description'] : []), ...(slip.sizeClass === null ? ['sizeClass'] : []), ...(slip.writtenAtMs === null ? ['writtenAt'] : [])];
  if (missing.length > 0 || slip.household === null || slip.sizeClass === null || slip.writtenAtMs === null) {
    throw new Problem('command_refused', 'The slip lacks what an item needs. Ask whoever wrote it, or mark it void.', { errors: missing.map((name) => ({ detail: 'is needed for a slip that was written', code: 'missing', pointer: `${pointer}/${name}` })) });
  }
  const household = await householdOf(stores, call, kit, slip.household, pointer);
  const said = Object.fromEntries(slip.consents.filter(({ scope }) => scope !== 'photograph').map(({ scope, given }) => [scope, given]));
  const { description, familyWords, materialClass, sizeClass, significance, count, water, wettedAtMs, to, writtenAtMs } = slip;
  const item = await takeInItem(stores, call, {
    incidentId: kit.incidentId, householdId: household.id, siteId: kit.siteId, tag: tagCode, count, lot: count > 1, description, familyWords, photographRef: '', materialClass, sizeClass, significance, wettedAtMs, water, to,
    arrivedAtMs: writtenAtMs, said, refs: { paperKitId: kit.id, slipNo: String(slip.slipNo), keyedBy: personId },
  });
  await stores.consents.insert(slip.consents.map(({ scope, given }) => toRecord(call, household, item.id, { scope, given, manner: 'written', note: '' })));
  return item;
}

/** The household of the slip; the first slip that names it and a contact registers it. */
async function householdOf(stores: Stores, call: UseCaseCall, kit: PaperKitRecord, { code, language, contact }: NonNullable<SlipToKey['household']>, pointer: string): Promise<HouseholdRecord> {
  const known = await stores.households.findByCode(kit.incidentId, code);
  if (known) return known;
  if (contact === null) throw new Problem('reference_unknown', `Household ${code} is not registered yet. Give its contact with this slip, or register it first.`, { errors: [{ detail: 'names no household of this incident', code: 'reference_unknown', pointer: `${pointer}/household/code` }] });
  return (await takeInHousehold(stores, call, { incidentId: kit.incidentId, code, language, contact, consents: [] })).household;
}
