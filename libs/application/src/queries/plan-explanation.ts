import { say, stretchInWords, type Message } from '#care';
import { notFound, Problem } from '#contracts';
import { formatTagCode } from '#custody';
import { explainItem, explanationInWords, type ItemExplanation, type PlanSpeaker, type Precedence, whyBefore } from '#planning';
import type { UseCaseCall } from '../call.js';
import { blockerInWords } from '../planning/plan-summary.js';
import { helpInWords, momentInWords } from '../planning/what-if/what-if-words.js';
import type { PlanGround } from '../ports/plan-ground-store.js';
import type { NotPlanned, PlanRevisionRecord } from '../ports/plan-store.js';
import type { PlanWhatIfRecord, WhatIfLayout } from '../ports/plan-what-if-store.js';
import type { Stores } from '../ports/work.js';

/** What is read for an explanation; the thinking is done after the transaction (`explained`), in a thread. */
export interface PlanExplanationGround {
  itemId: string;
  otherItemId: string | null;
  revision: PlanRevisionRecord;
  /** As it is kept (`unpackGround`). */
  packed: Uint8Array;
  layout: WhatIfLayout;
  labels: ReadonlyMap<string, { tagCode: string; description: string }>;
  whatIf: PlanWhatIfRecord | null;
}

/** An item in the plan in force, in words; plain data. */
export interface PlanExplanation {
  itemId: string;
  revision: PlanRevisionRecord;
  state: ItemExplanation['state'] | 'left-out' | 'not-in-plan';
  explanation: ItemExplanation | null;
  blockedBy: NotPlanned['blockedBy'] | null;
  text: Message[];
  wouldHelp: { planWhatIfId: string; asOfMs: number; text: Message } | null;
  before: { otherItemId: string; precedence: Precedence } | null;
  /** Of things and people of the incident, and of the items in question, by id. */
  names: ReadonlyMap<string, string>;
  originMs: number;
  slotMinutes: number;
}

/**
 * Reads what the plan in force was made from. It is explained by that, not by the rows of now: a plan is right or wrong by what was
 * known when it was made, and says when that was.
 * @throws Problem not_found for the item, its plan, or a plan whose ground is not kept; reference_unknown, validation_failed for the other item
 */
export async function getPlanExplanation(stores: Stores, _call: UseCaseCall, input: { itemId: string; before?: string | undefined }): Promise<PlanExplanationGround> {
  const item = await stores.items.find(input.itemId);
  if (!item) throw notFound('item');
  const otherItemId = await otherOf(stores, item, input.before);
  const revision = await stores.plans.currentRevision(item.incidentId);
  if (!revision) throw notFound('plan');
  const packed = await stores.planGrounds.findPacked(revision.id);
  if (!packed) throw new Problem('not_found', 'What the plan in force was made from is not on record, so it cannot be explained. Ask for a new plan first (POST /v1/incidents/{incidentId}/plan-runs).');
  return {
    itemId: item.id, otherItemId, revision, packed, layout: await stores.planWhatIfs.layout(item.incidentId),
    labels: await stores.planWhatIfs.labels(otherItemId === null ? [item.id] : [item.id, otherItemId]), whatIf: await stores.planWhatIfs.newestAbout(item.id, revision.id),
  };
}

async function otherOf(stores: Stores, item: { id: string; incidentId: string }, before: string | undefined): Promise<string | null> {
  if (before === undefined) return null;
  if (before === item.id) throw new Problem('validation_failed', 'An item is not compared with itself. Name another one in `before`.', { errors: [{ detail: 'is the item itself', code: 'same_item', parameter: 'before' }] });
  const other = await stores.items.find(before);
  if (other?.incidentId !== item.incidentId) throw new Problem('reference_unknown', 'There is no item with this id in the incident of the item.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', parameter: 'before' }] });
  return before;
}

/** Thinks it through: O(items of the plan). */
export function explained(read: Omit<PlanExplanationGround, 'packed'>, { problem, plan, leftOut }: PlanGround): PlanExplanation {
  const { itemId, otherItemId, revision } = read;
  const names = namesOf(read);
  const speaker = speakerOf(names, problem);
  const isInPlan = (id: string): boolean => problem.items.some((item) => item.id === id);
  const waiting = leftOut.find((entry) => entry.itemId === itemId);
  const explanation = isInPlan(itemId) ? explainItem(problem, plan, itemId) : null;
  const canCompare = otherItemId !== null && isInPlan(itemId) && isInPlan(otherItemId);
  return {
    itemId, revision, explanation,
    state: explanation?.state ?? (waiting === undefined ? 'not-in-plan' : 'left-out'),
    blockedBy: explanation?.blockedBy ?? waiting?.blockedBy ?? null,
    text: explanation === null ? [absentInWords(waiting)] : explanationInWords(explanation, speaker),
    wouldHelp: helpOf(read, speaker),
    before: otherItemId === null ? null : { otherItemId, precedence: canCompare ? whyBefore(problem, plan, itemId, otherItemId, speaker) : NOT_COMPARED },
    names, originMs: problem.originMs, slotMinutes: problem.slotMinutes,
  };
}

const NOT_COMPARED: Precedence = { firstItemId: null, secondItemId: null, reasons: [], text: [say('The plan does not hold both of them, so it has no order for them.')] };

function absentInWords(waiting: NotPlanned | undefined): Message {
  if (waiting !== undefined) return say('It is not in the plan: {why}.', { why: blockerInWords(waiting.blockedBy) });
  return say('The plan does not know it: it came after the plan was made, or nothing was left to be done with it then.');
}

function helpOf({ whatIf, itemId, layout }: Omit<PlanExplanationGround, 'packed'>, { nameOf }: PlanSpeaker): PlanExplanation['wouldHelp'] {
  if (whatIf?.result?.item == null) return null;
  return { planWhatIfId: whatIf.id, asOfMs: whatIf.result.asOfMs, text: helpInWords(nameOf(itemId), whatIf.result.item, whatIf.result, layout) };
}

/** Things by their code, people and specialists by their name, items by the tag that hangs on them. */
function namesOf({ layout, labels }: Omit<PlanExplanationGround, 'packed'>): Map<string, string> {
  const things = [...layout.stations, ...layout.places, ...layout.rooms, ...layout.freezers, ...layout.rides];
  return new Map([
    ...[...labels].map(([id, { tagCode }]) => [id, formatTagCode(tagCode)] as const),
    ...things.map(({ id, code }) => [id, code] as const),
    ...[...layout.people, ...layout.specialists].map(({ id, name }) => [id, name] as const),
  ]);
}

/** Moments by the clock. */
function speakerOf(names: ReadonlyMap<string, string>, { originMs, slotMinutes }: Pick<PlanGround['problem'], 'originMs' | 'slotMinutes'>): PlanSpeaker {
  const slotMs = slotMinutes * 60_000;
  return {
    nameOf: (id) => names.get(id) ?? id,
    stretchOf: (slots) => stretchInWords(slots * slotMs),
    momentOf: (slot) => momentInWords(originMs + slot * slotMs),
  };
}
