import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import type { ItemAndEvent } from '../custody/true-place.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { Stores } from '../ports/work.js';

export interface ReportMissingInput {
  itemId: string;
  /** Who looked for it. */
  personId: string | null;
  lookedAtMs: number | null;
}

/** Records that a thing was looked for and not found. Its keeper stays on record, as the last known one; no plan reckons with it. */
export async function reportMissing(stores: Stores, call: UseCaseCall, input: ReportMissingInput): Promise<ItemAndEvent> {
  const item = await stores.items.lock(input.itemId);
  if (!item) throw notFound('item');
  await refuseClosed(stores, item);
  if (input.personId !== null) await personOf(stores, item.incidentId, input.personId);
  const occurredAtMs = momentOf(call, input.lookedAtMs, '#/lookedAt');
  const refs: Record<string, string> = input.personId === null ? {} : { personId: input.personId };
  const reported = await recordCustody(stores, call, item, { kind: 'reported-missing', from: item.keeper, to: item.keeper, refs, occurredAtMs });
  if (!item.matters.missing) await requestPlan(stores, call, item.incidentId, PLAN_REASONS.missing);
  return reported;
}
