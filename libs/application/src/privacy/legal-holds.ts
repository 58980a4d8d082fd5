import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import type { HoldRecord } from '../ports/erasure-store.js';
import { personalField } from '../ports/personal-store.js';
import type { Stores } from '../ports/work.js';
import { lockedHousehold } from './erase-household.js';

export interface HoldView {
  hold: HoldRecord;
  /** Null where the household was erased since. */
  reason: string | null;
}

export const holdReasonField = (holdId: string): string => personalField('household_hold.reason', holdId);

/** From now on the household is not erased, whoever asks for it, until the hold is lifted. On the record of unknown owners it keeps every found thing of the incident here. */
export async function placeLegalHold(stores: Stores, call: UseCaseCall, input: { householdId: string; personId: string; reason: string }): Promise<HoldView> {
  const household = await lockedHousehold(stores, input.householdId, true);
  await refuseNoLead(stores, { incidentId: household.incidentId, personId: input.personId, may: 'place a legal hold. Ask a lead of the incident.' });
  const open = await stores.erasures.openHold(household.id);
  if (open) throw new Problem('already_exists', 'The household is under a legal hold already.', { members: { legalHoldId: open.id } });
  const id = call.env.newId();
  const hold: HoldRecord = {
    id, incidentId: household.incidentId, householdId: household.id, reasonSealed: await stores.personal.seal(household.id, holdReasonField(id), input.reason),
    placedBy: input.personId, placedAtMs: call.env.nowMs, liftedBy: null, liftedAtMs: null, version: 1,
  };
  await stores.erasures.insertHold(hold);
  return { hold, reason: input.reason };
}

export async function liftLegalHold(stores: Stores, call: UseCaseCall, input: { legalHoldId: string; personId: string }): Promise<HoldView> {
  const hold = await stores.erasures.lockHold(input.legalHoldId);
  if (!hold) throw notFound('legal hold');
  if (hold.liftedAtMs !== null) throw new Problem('legal_hold_ended', 'This legal hold was lifted before.', { members: { liftedAt: new Date(hold.liftedAtMs).toISOString() } });
  await refuseNoLead(stores, { incidentId: hold.incidentId, personId: input.personId, may: 'lift a legal hold. Ask a lead of the incident.' });
  await stores.erasures.liftHold(hold.id, input.personId, call.env.nowMs);
  return { hold: { ...hold, liftedBy: input.personId, liftedAtMs: call.env.nowMs, version: hold.version + 1 }, reason: await stores.personal.open(hold.householdId, holdReasonField(hold.id), hold.reasonSealed) };
}
