import { afterStepResult, type Assessment, type CareStep, type Disposition, type DispositionOption, type StepKind } from '#care';
import type { Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf, stationHolding, stationOf } from '../care/claims.js';
import { doneAmong, settledSteps } from '../care/done-steps.js';
import { refuseUnconsented } from '../care/owner-refusal.js';
import { retriageInFull, triageAnew } from '../care/retriage.js';
import { nextStepOf } from '../care/route.js';
import { chosenBy, latestTriageOf, lockOpenItem, standingOf, type Standing } from '../care/standing.js';
import { putAfterStep } from '../care/step-custody.js';
import { wayOfStep } from '../care/step-order.js';
import { tellChanges } from '../care/tell-changes.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { StepOutcome, StepResultRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';

export interface RecordStepResultInput {
  itemId: string;
  step: StepKind;
  outcome: StepOutcome;
  /** The way on whose route the step stood, as the plan or the list said; null for the item's own. */
  disposition: Disposition | null;
  personId: string;
  stationId: string | null;
  startedAtMs: number | null;
  finishedAtMs: number | null;
  note: string;
  /** Where it was put down; null for the waiting area of the zone where it goes on. */
  to: Keeper | null;
}

export interface StepReport {
  result: StepResultRecord;
  item: ItemRecord;
  next: CareStep | null;
  /** What changed, in plain words. */
  changes: string[];
  planRunId: string | null;
}

/** Records how a step ended: what was learned of the item, what comes next, and where it is now, all at once or not at all. */
export async function recordStepResult(stores: Stores, call: UseCaseCall, input: RecordStepResultInput): Promise<StepReport> {
  const before = await lockOpenItem(stores, input.itemId);
  const result = await checkedResult(stores, call, before, input);
  const standing = await standingOf(stores, before);
  const station = await stationHolding(stores, before.incidentId, before.keeper);
  const way = wayOfStep({ item: before, standing, station, triage: await latestTriageOf(stores, before) }, input);
  await refuseUnconsented(stores, before, way, input);
  await stores.steps.insert(result);
  const learned = await learn(stores, call, before, standing, way, result);
  const put = await putAfterStep(stores, call, learned.item, {
    step: input.step, outcome: input.outcome, way, station, next: learned.next, to: input.to,
    personId: input.personId, stepResultId: result.id, endedAtMs: result.finishedAtMs,
  });
  const run = input.outcome === 'done' ? null : await requestPlan(stores, call, before.incidentId, `${input.step}: ${input.outcome}`);
  const { step, outcome } = input;
  return { result, item: put.item, next: learned.next, planRunId: run?.id ?? null, changes: tellChanges(before, put.item, { step, outcome, next: learned.next, place: put.place, planRequested: run !== null }) };
}

async function checkedResult(stores: Stores, call: UseCaseCall, item: ItemRecord, input: RecordStepResultInput): Promise<StepResultRecord> {
  await personOf(stores, item.incidentId, input.personId);
  if (input.stationId !== null) await stationOf(stores, item.incidentId, input.stationId);
  const finishedAtMs = momentOf(call, input.finishedAtMs, '#/finishedAt');
  if (input.startedAtMs !== null && input.startedAtMs > finishedAtMs) {
    throw new Problem('command_refused', 'The step cannot have started after it ended. Check both times.', { errors: [{ detail: 'lies after the end of the step', code: 'time_order', pointer: '#/startedAt' }] });
  }
  return {
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: input.step, outcome: input.outcome,
    stationId: input.stationId ?? (item.keeper.kind === 'station' ? item.keeper.id : null), personId: input.personId, note: input.note,
    startedAtMs: input.startedAtMs, finishedAtMs, recordedAtMs: call.env.nowMs,
  };
}

/** Nothing new is known of the thing after these, but its urgency is another one. */
const STOPS_CLOCKS: ReadonlySet<StepKind> = new Set(['freeze', 'dry']);

interface Learned {
  item: ItemRecord;
  next: CareStep | null;
}

/** Triages anew when the step taught something about the thing; otherwise only the next step moves on, or nothing does. */
async function learn(stores: Stores, call: UseCaseCall, item: ItemRecord, standing: Standing, way: DispositionOption, result: StepResultRecord): Promise<Learned> {
  const { step, outcome } = result;
  if (outcome === 'failed') return { item, next: way.steps.find((care) => care.step === item.nextStep) ?? null };
  const known = standing.assessment.observed;
  const observed = afterStepResult(known, { outcome }, { step, disposition: way.disposition });
  const doneSteps = outcome === 'done' ? doneAmong([...standing.results, result]) : standing.done;
  const ownerAsked = standing.ownerAsked || outcome === 'owner-must-decide';
  const thawed = step === 'thaw' && outcome === 'done';
  if (!thawed && sameObservations(known, observed)) {
    if (outcome === 'done' && STOPS_CLOCKS.has(step)) return triageAnew(stores, call, item, standing.assessment, { doneSteps, ownerAsked, chosen: way.disposition });
    return moveOn(stores, call, item, way, settledSteps(doneSteps, known.mould), ownerAsked);
  }
  // Its custody event follows only when the next zone is known, but the triage is about a thing that lies thawed.
  const triaged = await retriageInFull(stores, call, thawed ? { ...item, stage: 'waiting' } : item, observed, {
    origin: 'step-result', assessedAtMs: result.finishedAtMs, doneSteps, ownerAsked, chosen: wayAfter(standing, way, outcome, thawed), ...(result.personId === null ? {} : { assessedBy: result.personId }),
  });
  return { item: { ...triaged.item, stage: item.stage }, next: triaged.next };
}

/** Work that goes well stays on its way. A finding opens the question anew, and so does a thaw unless a lead has decided since. */
function wayAfter(standing: Standing, way: DispositionOption, outcome: StepOutcome, thawed: boolean): Disposition | null {
  if (outcome === 'dye-moved' || outcome === 'mould-found') return null;
  return thawed ? chosenBy(standing) : way.disposition;
}

async function moveOn(stores: Stores, call: UseCaseCall, item: ItemRecord, way: DispositionOption, settled: ReadonlySet<StepKind>, ownerAsked: boolean): Promise<Learned> {
  const next = nextStepOf(item.stage, way, settled);
  const changed = { disposition: way.disposition, nextStep: next?.care.step ?? null, routePosition: next?.position ?? way.steps.length, waitingForOwner: item.waitingForOwner || ownerAsked };
  const version = await stores.items.saveWork(item.id, changed, call.env.nowMs);
  return { item: { ...item, ...changed, version, updatedAtMs: call.env.nowMs }, next: next?.care ?? null };
}

/** Both come from one object by spreading, so their members stand in the same order. */
function sameObservations(a: Assessment, b: Assessment): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
