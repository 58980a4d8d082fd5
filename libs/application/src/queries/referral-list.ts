import { say, type CareStep, type Message } from '#care';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { ownerIsUnknown } from '../claims/unknown-owner.js';
import type { PlanRevisionRecord } from '../ports/plan-store.js';
import type { ReferralRow } from '../ports/work-rows.js';
import type { Stores } from '../ports/work.js';

export const MISSING_TO_REFER = ['consent-missing', 'consent-refused', 'lead-decides', 'owner-unknown'] as const;

/** What the rules of a referral (`refer-item`) still ask for. */
export interface MissingToRefer {
  code: (typeof MISSING_TO_REFER)[number];
  text: Message;
}

/** Something that the plan sends to a specialist, with the step `refer` of its latest triage. */
export interface PlannedReferral extends ReferralRow {
  missing: MissingToRefer[];
  care: CareStep | null;
}

export interface ReferralList {
  incidentId: string;
  atMs: number;
  /** Null when there is no plan yet. */
  revision: Pick<PlanRevisionRecord, 'number' | 'createdAtMs'> | null;
  referrals: PlannedReferral[];
}

const MISSING: Readonly<Record<MissingToRefer['code'], Message>> = {
  'consent-missing': say('The owner has not agreed to a referral yet. Ask, and record the answer with the household: it stays here until then.'),
  'consent-refused': say('The owner has refused a referral: it stays here.'),
  'lead-decides': say('Nobody knows the owner. A lead may send it, to be made safe and at no cost to any owner.'),
  'owner-unknown': say('Nobody knows the owner, and it is safe already: it waits here for the owner.'),
};

/**
 * What the plan in force sends to specialists and is still here, by the moment when it should be with them. It sends nothing: the
 * command `referItem` does, by its own rules.
 * @throws Problem not_found
 */
export async function getReferralList(stores: Stores, call: UseCaseCall, input: { incidentId: string; specialistId?: string | undefined; limit: number }): Promise<ReferralList> {
  const { incidentId, specialistId = null, limit } = input;
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const revision = await stores.plans.currentRevision(incidentId);
  const rows = revision === null ? [] : await stores.plans.toRefer(revision.id, specialistId, limit);
  const referrals: PlannedReferral[] = [];
  for (const row of rows) referrals.push({ ...row, missing: await missingFor(stores, row), care: row.option.steps.find(({ step }) => step === 'refer') ?? null });
  return { incidentId, atMs: call.env.nowMs, revision, referrals };
}

/** The rules of `whatLetsItLeave` (commands/refer-unowned.ts), told beforehand instead of refusing. */
async function missingFor(stores: Stores, { itemId, householdId, stabilised }: ReferralRow): Promise<MissingToRefer[]> {
  const tell = (code: MissingToRefer['code']): MissingToRefer[] => [{ code, text: MISSING[code] }];
  const { consents } = await stores.consents.inForce(householdId, itemId);
  if (consents.refer === true) return [];
  if (await ownerIsUnknown(stores, householdId)) return tell(stabilised ? 'owner-unknown' : 'lead-decides');
  return tell(consents.refer === false ? 'consent-refused' : 'consent-missing');
}
