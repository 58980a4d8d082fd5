import { notFound, Problem } from '#contracts';
import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import { personOf, refuseNoLead } from '../care/claims.js';
import { retriageItem } from '../families/put-word.js';
import type { FamilyMatterRecord } from '../ports/family-matter-store.js';
import type { Stores } from '../ports/work.js';

export interface MatterView {
  matter: FamilyMatterRecord;
  /** What was done about it, as somebody wrote it down. */
  settlement: string;
}

export const settlementField = (matterId: string): string => `family_matter.settlement:${matterId}`;

/** A person has seen to it. A thing that was stopped in the middle goes on only by the word of a lead. */
export async function settleFamilyMatter(stores: Stores, call: UseCaseCall, input: { familyMatterId: string; personId: string; settlement: string }): Promise<MatterView> {
  const found = await stores.familyMatters.lock(input.familyMatterId);
  if (!found) throw notFound('matter');
  if (found.settledAtMs !== null) throw new Problem('already_exists', 'Somebody has seen to this already.');
  await personOf(stores, found.incidentId, input.personId);
  if (found.kind === 'consent-withdrawn') await refuseNoLead(stores, { incidentId: found.incidentId, personId: input.personId, may: 'say how a thing goes on that was stopped by its owner. Ask a lead to look at it.' });
  const matter: FamilyMatterRecord = { ...found, settledAtMs: call.env.nowMs, settledBy: input.personId, settlement: await stores.personal.seal(found.householdId, settlementField(found.id), input.settlement) };
  await stores.familyMatters.settle(matter);
  if (found.kind === 'consent-withdrawn' && found.itemId !== null) await goOn(stores, call, found.itemId);
  return { matter, settlement: input.settlement };
}

/** By the owner's words as they now stand. */
async function goOn(stores: Stores, call: UseCaseCall, itemId: string): Promise<void> {
  const item = await stores.items.lock(itemId);
  if (item && !TERMINAL_STAGES.includes(item.stage)) await retriageItem(stores, call, item, true);
}
