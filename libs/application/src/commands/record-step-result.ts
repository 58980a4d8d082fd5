import { afterStepResult, type Assessment, type CareStep, type Disposition, type DispositionOption, type Message, type StepKind, type TriageChange } from '#care';
import type { Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { roundInWords } from '../care/change-words.js';
import { momentOf, stationHolding, stationOf } from '../care/claims.js';
import { doneAmong, settledSteps, undoneByDoing } from '../care/done-steps.js';
import { refuseUnconsented } from '../care/owner-refusal.js';
import { retriageInFull, triageAnew, type Triaged } from '../care/retriage.js';
import { nextStepOf } from '../care/route.js';
import { settle, unsettle } from '../care/safety.js';
import { chosenBy, latestTriageOf, lockOpenItem, OVERTURNING, standingOf, type Standing } from '../care/standing.js';
import { putAfterStep } from '../care/step-custody.js';
import { wayOfStep } from '../care/step-order.js';
import { crewOf, keepUnsuited, refuseUnsuited, tellUnsuited, unsuitedFor, type SuitabilityOverride } from '../care/suited.js';
import { tellChanges } from '../care/tell-changes.js';
import { changeOf } from '../care/triage-view.js';
import { undoneByMould } from '../care/wet-again.js';
import { foundReason, PLAN_REASONS } from '../planning/plan-reasons.js';
import { freesDryingSpace, requestPlan } from '../planning/request-plan.js';
import { noteReady } from '../families/news.js';
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
  /** Others who did it together with that person. */
  withPersonIds: string[];
  /** A trolley, board or hoist carried the weight. */
  liftingAid: boolean;
  stationId: string | null;
  startedAtMs: number | null;
  finishedAtMs: number | null;
  /** Minutes of rest between the two. */
  restMinutes: number;
  note: string;
  /** Where it was put down; null for the waiting area of the zone where it goes on. */
  to: Keeper | null;
  /** For work done by somebody who should not have done it; without need it changes nothing. */
  override: SuitabilityOverride | null;
}

export interface StepReport {
  result: StepResultRecord;
  item: ItemRecord;
  next: CareStep | null;
  /** What changed, in plain words. */
  changes: Message[];
  /** What the new triage changed; null where the step taught nothing that is triaged anew. */
  change: TriageChange | null;
  planRunId: string | null;
}

/** Records how a step ended: what was learned of the item, what comes next, and where it is now, all at once or not at all. */
export async function recordStepResult(stores: Stores, call: UseCaseCall, input: RecordStepResultInput): Promise<StepReport> {
  const before = await lockOpenItem(stores, input.itemId);
  const checked = await checkedResult(stores, call, before, input);
  const crew = await crewOf(stores, before.incidentId, input);
  const standing = await standingOf(stores, before);
  const result = { ...checked, undoes: undoneBy(before, standing, input) };
  const station = await stationHolding(stores, before.incidentId, before.keeper);
  const triage = await latestTriageOf(stores, before);
  const way = wayOfStep({ item: before, standing, station, triage }, input);
  await refuseUnconsented(stores, before, standing, way, input);
  const unsuited = await unsuitedFor(stores, crew, { ...result, liftingAid: input.liftingAid, restMinutes: input.restMinutes, item: before, standing, triage, way });
  refuseUnsuited(unsuited, input, input.outcome !== 'done');
  await stores.steps.insert(result);
  await keepUnsuited(stores, call, { incidentId: before.incidentId, itemId: before.id, step: input.step, stepResultId: result.id, people: unsuited, override: input.override });
  const learned = await learn(stores, call, before, standing, way, { ...result, outcome: input.outcome });
  const put = await putAfterStep(stores, call, learned.item, {
    step: input.step, outcome: input.outcome, way, station, next: learned.next, to: input.to,
    personId: input.personId, stepResultId: result.id, endedAtMs: result.finishedAtMs,
    dryUndoneAtMs: standing.results.findLast(({ undoes }) => undoes.includes('dry'))?.recordedAtMs ?? null,
  });
  const { step, outcome } = input;
  const item = await settled(stores, call, put.item, standing, learned, way, result);
  const found = outcome === 'done' ? null : await requestPlan(stores, call, before.incidentId, foundReason(step, [outcome]));
  const run = found ?? (freesDryingSpace(before.keeper, put.item.keeper) ? await requestPlan(stores, call, before.incidentId, PLAN_REASONS.placeFree, 'eased') : null);
  const changes = tellChanges(before, item, { step, outcome, next: learned.next, place: put.place, planRequested: found !== null });
  const change = learned.triaged === null ? null : changeOf({ triage, assessment: standing.assessment }, learned.triaged);
  return { result, item, next: learned.next, planRunId: run?.id ?? null, change, changes: [...changes, ...tellRound(standing, result), ...tellUnsuited(unsuited)] };
}

/** What counts as done no longer because of what is reported. */
function undoneBy({ stage }: ItemRecord, { assessment, results }: Standing, { step, outcome }: RecordStepResultInput): readonly StepKind[] {
  if (outcome === 'done') return undoneByDoing(step);
  return outcome === 'mould-found' ? undoneByMould({ stage, results }, assessment.observed.wetState) : [];
}

async function checkedResult(stores: Stores, call: UseCaseCall, item: ItemRecord, input: RecordStepResultInput): Promise<Omit<StepResultRecord, 'undoes'>> {
  if (input.stationId !== null) await stationOf(stores, item.incidentId, input.stationId);
  const finishedAtMs = momentOf(call, input.finishedAtMs, '#/finishedAt');
  if (input.startedAtMs !== null && input.startedAtMs > finishedAtMs) {
    throw new Problem('command_refused', 'The step cannot have started after it ended. Check both times.', { errors: [{ detail: 'lies after the end of the step', code: 'time_order', pointer: '#/startedAt' }] });
  }
  if (input.startedAtMs !== null && input.restMinutes * 60_000 > finishedAtMs - input.startedAtMs) {
    throw new Problem('command_refused', 'The rests cannot have been longer than the step. Check the times and the minutes of rest.', { errors: [{ detail: 'is longer than the time between start and end', code: 'rest_too_long', pointer: '#/restMinutes' }] });
  }
  return {
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: input.step, outcome: input.outcome,
    stationId: input.stationId ?? (item.keeper.kind === 'station' ? item.keeper.id : null), personId: input.personId, note: input.note,
    startedAtMs: input.startedAtMs, finishedAtMs, recordedAtMs: call.env.nowMs,
    withPersonIds: [...new Set(input.withPersonIds)].filter((id) => id !== input.personId), liftingAid: input.liftingAid, restMinutes: input.startedAtMs === null ? 0 : input.restMinutes,
  };
}

/** Nothing new is known of the thing after these, but its urgency is another one. */
const STOPS_CLOCKS: ReadonlySet<StepKind> = new Set(['freeze', 'dry']);

interface Learned {
  item: ItemRecord;
  next: CareStep | null;
  /** Null where nothing was triaged anew. */
  triaged: Triaged | null;
}

/** Triages anew when the step taught something about the thing; otherwise only the next step moves on, or nothing does. */
async function learn(stores: Stores, call: UseCaseCall, item: ItemRecord, standing: Standing, way: DispositionOption, result: StepResultRecord & { outcome: StepOutcome }): Promise<Learned> {
  const { step, outcome } = result;
  if (outcome === 'failed') return { item, next: way.steps.find((care) => care.step === item.nextStep) ?? null, triaged: null };
  const known = standing.assessment.observed;
  const observed = afterStepResult(known, { outcome }, { step, disposition: way.disposition });
  const doneSteps = doneAmong([...standing.results, result]);
  const ownerAsked = standing.ownerAsked || standing.stop !== null || outcome === 'owner-must-decide';
  const thawed = step === 'thaw' && outcome === 'done';
  if (!thawed && sameObservations(known, observed)) {
    // Nothing follows by itself where the owner has taken back the yes.
    if (standing.stop !== null) return learnedFrom(await triageAnew(stores, call, item, standing.assessment, { doneSteps, ownerAsked, chosen: chosenBy(standing) }));
    if (outcome === 'done' && STOPS_CLOCKS.has(step)) return learnedFrom(await triageAnew(stores, call, item, standing.assessment, { doneSteps, ownerAsked, chosen: way.disposition }));
    return moveOn(stores, call, item, way, settledSteps(doneSteps, known.mould), ownerAsked);
  }
  // Its custody event follows only when the next zone is known, but the triage is about a thing that lies thawed.
  const triaged = await retriageInFull(stores, call, thawed ? { ...item, stage: 'waiting' } : item, observed, {
    origin: 'step-result', assessedAtMs: result.finishedAtMs, doneSteps, ownerAsked, chosen: wayAfter(standing, way, outcome, thawed), ...(result.personId === null ? {} : { assessedBy: result.personId }),
  });
  return { ...learnedFrom(triaged), item: { ...triaged.item, stage: item.stage } };
}

/** What a finding undoes of the work so far and of a lead's choice. */
function tellRound({ override }: Standing, { outcome, undoes }: StepResultRecord): Message[] {
  return outcome === 'done' ? [] : roundInWords({ again: false, undoes, overturned: OVERTURNING.includes(outcome) ? override : null });
}

/** Whether it counts as safe with what was done or found, where custody does not say so. */
function settled(stores: Stores, call: UseCaseCall, item: ItemRecord, standing: Standing, { triaged }: Learned, way: DispositionOption, result: StepResultRecord): Promise<ItemRecord> {
  const { step, outcome, undoes, finishedAtMs } = result;
  if (outcome !== 'done') return unsettle(stores, call, item, { found: [outcome], undoes });
  const { mould } = (triaged?.assessment ?? standing.assessment).observed;
  return settle(stores, call, item, { step, way, done: doneAmong([...standing.results, result]), mould, atMs: finishedAtMs });
}

function learnedFrom(triaged: Triaged): Learned {
  return { item: triaged.item, next: triaged.next, triaged };
}

/** Work that goes well stays on its way. A finding opens the question anew, and so does a thaw unless a lead has decided since. */
function wayAfter(standing: Standing, way: DispositionOption, outcome: StepOutcome, thawed: boolean): Disposition | null {
  if (standing.stop !== null) return chosenBy(standing);
  if (outcome === 'dye-moved' || outcome === 'mould-found') return null;
  return thawed ? chosenBy(standing) : way.disposition;
}

async function moveOn(stores: Stores, call: UseCaseCall, item: ItemRecord, way: DispositionOption, settled: ReadonlySet<StepKind>, ownerAsked: boolean): Promise<Learned> {
  const next = nextStepOf(item.stage, way, settled);
  const changed = { disposition: way.disposition, nextStep: next?.care.step ?? null, routePosition: next?.position ?? way.steps.length, waitingForOwner: item.waitingForOwner || ownerAsked };
  const version = await stores.items.saveWork(item.id, changed, call.env.nowMs);
  await noteReady(stores, call, item, { ...item, ...changed });
  return { item: { ...item, ...changed, version, updatedAtMs: call.env.nowMs }, next: next?.care ?? null, triaged: null };
}

/** Both come from one object by spreading, so their members stand in the same order. */
function sameObservations(a: Assessment, b: Assessment): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
