import { sameKeeper, type CustodyEvent, type Keeper, type Stage } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { beginNewRound } from '../commands/return-from-referral.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { freesDryingSpace, requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { claimRoom } from './capacity.js';
import { refuseClosed } from './open-incident.js';
import { recordCustody } from './record-custody.js';
import { agreementToRefer } from './refer-out.js';

/** What a person says who has the thing in front of them. */
export interface TruePlace {
  itemId: string;
  /** Where it is. */
  at: Keeper;
  personId: string;
  /** What is truly being done with it there; null when that is as on record. */
  stage: Stage | null;
  seenAtMs: number | null;
  /** The scan by which it was said. */
  scanId?: string;
}

/** Recorded matter of an item: the item as it is now, and the event. */
export interface ItemAndEvent {
  item: ItemRecord;
  event: CustodyEvent;
}

/** Puts a thing on record where a person has it in front of them, after two reports disagreed or none said where it is. */
export async function recordTruePlace(stores: Stores, call: UseCaseCall, kind: 'location-settled' | 'found-again', input: TruePlace): Promise<ItemAndEvent> {
  const item = await stores.items.lock(input.itemId);
  if (!item) throw notFound('item');
  await refuseClosed(stores, item);
  await personOf(stores, item.incidentId, input.personId);
  const seenAtMs = momentOf(call, input.seenAtMs, '#/seenAt');
  await claimRoom(stores, item, input.at, '#/at');
  const { event, item: placed } = await recordCustody(stores, call, item, { kind, from: item.keeper, to: input.at, refs: await refsOf(stores, item, input), occurredAtMs: seenAtMs });
  const put = await carryOn(stores, call, item, placed, seenAtMs);
  // What was missing was in no plan.
  if (kind === 'found-again') await requestPlan(stores, call, item.incidentId, PLAN_REASONS.foundAgain);
  else if (freesDryingSpace(item.keeper, put.keeper)) await requestPlan(stores, call, item.incidentId, PLAN_REASONS.placeFree, 'eased');
  return { item: put, event };
}

async function refsOf(stores: Stores, item: ItemRecord, { at, stage, personId, scanId }: TruePlace): Promise<Record<string, string>> {
  const refs: Record<string, string> = { personId, ...(stage === null ? {} : { stage }), ...(scanId === undefined ? {} : { scanId }) };
  const stillAway = item.stage === 'referred-out' && (stage === null || stage === 'referred-out');
  return stillAway && !sameKeeper(item.keeper, at) ? { ...refs, consentId: await agreementToRefer(stores, item) } : refs;
}

/** What follows for its work: back from a specialist a new round begins, and its clock says what is true of it. */
export async function carryOn(stores: Stores, call: UseCaseCall, before: ItemRecord, now: ItemRecord, seenAtMs: number): Promise<ItemRecord> {
  if (before.stage === 'referred-out' && now.stage !== 'referred-out') {
    const open = await stores.steps.openReferral(now.id);
    return open === null ? now : beginNewRound(stores, call, now, open, seenAtMs);
  }
  const stabilisedAtMs = clockOf(before, now.stage, call.env.nowMs);
  if (stabilisedAtMs === before.stabilisedAtMs) return now;
  return { ...now, stabilisedAtMs, version: await stores.items.saveWork(now.id, { stabilisedAtMs }, call.env.nowMs) };
}

const STABLE: readonly Stage[] = ['drying', 'held-wet', 'held-frozen'];

/** Nobody may believe that a thing keeps which lies wet in a corner: found out of its freezer it counts as thawed. */
function clockOf({ stage, stabilisedAtMs }: ItemRecord, now: Stage, nowMs: number): number | null {
  if (stage === now) return stabilisedAtMs;
  if (STABLE.includes(now)) return stabilisedAtMs ?? nowMs;
  return stage === 'held-frozen' ? null : stabilisedAtMs;
}
