import { planningWeight, type Assessment, type CareStep, type Disposition, type DispositionOption, type StepKind, type TriageContext, type TriageOutcome } from '#care';
import type { UseCaseCall } from '../call.js';
import { careCalibrationInForce } from '../calibration/in-force.js';
import { askMissing } from '../families/ask.js';
import { noteReady } from '../families/news.js';
import type { AssessmentRecord, TriageRecord } from '../ports/assessment-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { bookInForce, judge } from '../rule-book/books.js';
import { settledSteps } from './done-steps.js';
import { chooseOption, nextStepOf } from './route.js';

/** How the item goes on after a triage. */
export interface TriageChoice {
  /** Steps of the route that are done already; they are not asked for again. */
  doneSteps?: ReadonlySet<StepKind>;
  /** A lead's recorded choice, or that of the plan; it wins when the rule book allows it. */
  chosen?: Disposition | null;
  /** A station has put a question to the owner that is not answered yet. */
  ownerAsked?: boolean;
}

export interface AssessmentOrigin extends TriageChoice {
  origin: AssessmentRecord['origin'];
  assessedAtMs: number;
  /** Who looked; the key of the call when nobody is named. */
  assessedBy?: string;
  /** Why it says something else than an earlier look about what cannot change by itself. */
  seenAgain?: string | null;
}

export interface Triaged {
  item: ItemRecord;
  assessment: AssessmentRecord;
  triage: TriageRecord;
  option: DispositionOption;
  /** The next step with its zone, cautions and protection; null when nothing is left to do. */
  next: CareStep | null;
}

/**
 * Stores what is now known of an item, triages it anew and sets its urgency, disposition and next step.
 * The item's row must be locked or new in this transaction. Answers the item as it now is.
 */
export async function retriage(stores: Stores, call: UseCaseCall, item: ItemRecord, assessment: Assessment, how: AssessmentOrigin): Promise<ItemRecord> {
  return (await retriageInFull(stores, call, item, assessment, how)).item;
}

/** As `retriage`; answers everything that it found and stored. */
export async function retriageInFull(stores: Stores, call: UseCaseCall, item: ItemRecord, observed: Assessment, how: AssessmentOrigin): Promise<Triaged> {
  const assessment: AssessmentRecord = {
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, observed, origin: how.origin,
    assessedBy: how.assessedBy ?? call.context.principalId, assessedAtMs: how.assessedAtMs, recordedAtMs: call.env.nowMs, seenAgain: how.seenAgain ?? null,
  };
  await stores.assessments.insert(assessment);
  return triageAnew(stores, call, item, assessment, how);
}

/** Triages an item by an assessment that is stored already: the rule book that the network follows now, the clocks of this moment. */
export async function triageAnew(stores: Stores, call: UseCaseCall, item: ItemRecord, assessment: AssessmentRecord, how: TriageChoice): Promise<Triaged> {
  const { observed } = assessment;
  const result = judge(await bookInForce(stores), observed, await triageContextOf(stores, call, item.incidentId, how.doneSteps));
  const triage: TriageRecord = { id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, assessmentId: assessment.id, result, createdAtMs: call.env.nowMs };
  await stores.assessments.insertTriage(triage);
  const option = chooseOption(result, how.chosen ?? wayItIsHeldBy(item));
  const next = nextStepOf(item.stage, option, settledSteps(how.doneSteps ?? new Set(), observed.mould));
  const changed = {
    urgency: result.urgency,
    startByMs: result.startByMs,
    disposition: option.disposition,
    planningWeight: planningWeight(observed, await careCalibrationInForce(stores)),
    materialClass: observed.materialClass,
    significance: observed.significance,
    wettedAtMs: observed.wettedAtMs,
    nextStep: next?.care.step ?? null,
    routePosition: next?.position ?? option.steps.length,
    waitingForOwner: how.ownerAsked === true || needsOwner(result, option),
  };
  const version = await stores.items.saveWork(item.id, changed, call.env.nowMs);
  await noteReady(stores, call, item, { ...item, ...changed });
  if (needsOwner(result, option)) await askMissing(stores, call, { ...item, ...changed }, option.disposition, observed.consents);
  return { item: { ...item, ...changed, version, updatedAtMs: call.env.nowMs }, assessment, triage, option, next: next?.care ?? null };
}

/** The moment and the air that a triage of this incident's things goes by, and the steps that are done in this round of work. */
export async function triageContextOf(stores: Stores, call: UseCaseCall, incidentId: string, doneSteps: Iterable<StepKind> = []): Promise<TriageContext> {
  const incident = await stores.places.incident(incidentId);
  if (!incident) throw new Error('an item without its incident');
  return { nowMs: call.env.nowMs, floodAtMs: incident.floodAtMs, airTempC: incident.outdoorAirTempC, doneSteps: [...doneSteps] };
}

/** What is frozen, held wet or away stays so until somebody decides otherwise; a triage alone does not thaw it. */
function wayItIsHeldBy(item: ItemRecord): Disposition | null {
  switch (item.stage) {
    case 'held-frozen':
      return 'hold-frozen';
    case 'held-wet':
      return 'hold-wet';
    case 'referred-out':
      return 'refer';
    default:
      return null;
  }
}

/** True when what the option lacks is the owner's word; a lead's or an authority's decision is another matter. */
function needsOwner(result: TriageOutcome, option: DispositionOption): boolean {
  return result.consentNeeded.some((statement) => option.needs.includes(statement.text));
}
