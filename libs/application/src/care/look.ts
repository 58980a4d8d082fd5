import { dyeState, type Assessment, type StepKind } from '#care';
import type { UseCaseCall } from '../call.js';
import { foundReason } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { TriageRecord } from '../ports/assessment-store.js';
import type { RecordedOutcome, StepResultRecord, UnsuitedPerson } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { roundInWords } from './change-words.js';
import { doneAmong } from './done-steps.js';
import { retriageInFull, type AssessmentOrigin } from './retriage.js';
import { chooseOption } from './route.js';
import { unsettle } from './safety.js';
import { chosenBy, latestTriageOf, type Standing } from './standing.js';
import { crewOf, keepUnsuited, refuseUnsuited, unsuitedFor, type SuitabilityOverride } from './suited.js';
import { viewOf, type TriageView } from './triage-view.js';
import { isNewMould, undoneByMould, type WetAgain } from './wet-again.js';

/** A look at a thing: the assessment or the colour test, with who looked and when. */
export interface Look {
  step: 'assess' | 'colour-test';
  personId: string;
  /** A lead who answers for a look by somebody who should not have looked. */
  override: SuitabilityOverride | null;
  atMs: number;
  observed: Assessment;
  /** The step counts as done with it. */
  complete: boolean;
  /** Why it says something else than an earlier look about what cannot change by itself. */
  seenAgain?: string | null;
  /** What it makes of the work so far by what it says of the water; nothing when left out. */
  wetAgain?: WetAgain;
}

/** A finding, or the step itself, with what counts as done no longer because of it. */
interface Brought {
  outcome: RecordedOutcome;
  undoes: readonly StepKind[];
}

const ORIGIN: Readonly<Record<Look['step'], AssessmentOrigin['origin']>> = { assess: 'person', 'colour-test': 'colour-test' };

/**
 * Records what a look brought, by somebody who may look: step results for what was found and for the step itself, a new triage, and when dye or
 * mould came to light or it got wet again, a new plan; a lead who chose a way before that decides again.
 */
export async function takeLook(stores: Stores, call: UseCaseCall, item: ItemRecord, standing: Standing, look: Look): Promise<TriageView> {
  const before = { triage: await latestTriageOf(stores, item), assessment: standing.assessment };
  const found = newFindings(item, standing, look);
  const overturned = found.length > 0;
  const unsuited = await unsuitedLookers(stores, item, standing, before.triage, look, overturned);
  const brought: Brought[] = look.complete ? [...found, { outcome: 'done', undoes: look.wetAgain?.again === false ? look.wetAgain.undoes : [] }] : found;
  const results = brought.map((one) => resultOf(call, item, look, one));
  for (const result of results) await stores.steps.insert(result);
  await keepUnsuited(stores, call, { incidentId: item.incidentId, itemId: item.id, step: look.step, stepResultId: results[0]?.id ?? null, people: unsuited, override: look.override });
  const triaged = await retriageInFull(stores, call, item, look.observed, {
    origin: ORIGIN[look.step], assessedAtMs: look.atMs, assessedBy: look.personId, ownerAsked: standing.ownerAsked || standing.stop !== null, seenAgain: look.seenAgain ?? null,
    doneSteps: doneAmong([...standing.results, ...results]), chosen: overturned ? null : chosenBy(standing),
  });
  const outcomes = found.map(({ outcome }) => outcome);
  const undoes = [...new Set(brought.flatMap((one) => one.undoes))];
  const now = await unsettle(stores, call, triaged.item, { found: outcomes, undoes });
  if (overturned || undoes.length > 0) await requestPlan(stores, call, item.incidentId, foundReason(look.step, overturned ? outcomes : ['still-damp']));
  const notes = roundInWords({ again: look.wetAgain?.again === true, undoes, overturned: overturned ? standing.override : null });
  return { ...viewOf({ ...triaged, item: now }, overturned ? null : standing.override, before), notes };
}

/** Whoever looked and should not have. What came to light is taken from everybody. @throws Problem person_not_suited */
async function unsuitedLookers(stores: Stores, item: ItemRecord, standing: Standing, triage: TriageRecord, look: Look, hasFound: boolean): Promise<UnsuitedPerson[]> {
  const named = { personId: look.personId, withPersonIds: [], override: look.override };
  const crew = await crewOf(stores, item.incidentId, named);
  const way = chooseOption(triage.result, item.disposition);
  const unsuited = await unsuitedFor(stores, crew, { item, standing, triage, way, step: look.step, startedAtMs: null, finishedAtMs: look.atMs, liftingAid: false, restMinutes: 0 });
  refuseUnsuited(unsuited, named, hasFound);
  return unsuited;
}

/** That it got wet again; dye that is now known to move; mould that is now seen or suspected. */
function newFindings(item: ItemRecord, { assessment, results }: Standing, { observed, wetAgain }: Look): Brought[] {
  const known = assessment.observed;
  const bleeds = dyeState(observed) === 'bleeding' && dyeState(known) !== 'bleeding';
  return [
    ...(wetAgain?.again === true ? [{ outcome: 'wetted-again' as const, undoes: wetAgain.undoes }] : []),
    ...(bleeds ? [{ outcome: 'dye-moved' as const, undoes: [] }] : []),
    ...(isNewMould({ known, results }, observed.mould) ? [{ outcome: 'mould-found' as const, undoes: undoneByMould({ stage: item.stage, results }, observed.wetState) }] : []),
  ];
}

function resultOf(call: UseCaseCall, item: ItemRecord, look: Look, { outcome, undoes }: Brought): StepResultRecord {
  return {
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: look.step, outcome, undoes, personId: look.personId, note: '',
    stationId: item.keeper.kind === 'station' ? item.keeper.id : null, startedAtMs: null, finishedAtMs: look.atMs, recordedAtMs: call.env.nowMs,
  };
}
