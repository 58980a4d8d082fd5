import { dyeState, type Assessment } from '#care';
import type { UseCaseCall } from '../call.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { StepOutcome, StepResultRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { doneAmong } from './done-steps.js';
import { retriageInFull, type AssessmentOrigin } from './retriage.js';
import { chosenBy, latestTriageOf, type Standing } from './standing.js';
import { viewOf, type TriageView } from './triage-view.js';

/** A look at a thing: the assessment or the colour test, with who looked and when. */
export interface Look {
  step: 'assess' | 'colour-test';
  personId: string;
  atMs: number;
  observed: Assessment;
  /** The step counts as done with it. */
  complete: boolean;
  /** Why it says something else than an earlier look about what cannot change by itself. */
  seenAgain?: string | null;
}

const ORIGIN: Readonly<Record<Look['step'], AssessmentOrigin['origin']>> = { assess: 'person', 'colour-test': 'colour-test' };

/**
 * Records what a look brought: step results for what was found and for the step itself, a new triage, and when dye or
 * mould came to light, a new plan; a lead who chose a way before that decides again.
 */
export async function takeLook(stores: Stores, call: UseCaseCall, item: ItemRecord, standing: Standing, look: Look): Promise<TriageView> {
  const before = { triage: await latestTriageOf(stores, item), assessment: standing.assessment };
  const found = newFindings(standing.assessment.observed, look.observed);
  const outcomes: StepOutcome[] = look.complete ? [...found, 'done'] : found;
  const results = outcomes.map((outcome) => resultOf(call, item, look, outcome));
  for (const result of results) await stores.steps.insert(result);
  const triaged = await retriageInFull(stores, call, item, look.observed, {
    origin: ORIGIN[look.step], assessedAtMs: look.atMs, assessedBy: look.personId, ownerAsked: standing.ownerAsked, seenAgain: look.seenAgain ?? null,
    doneSteps: doneAmong([...standing.results, ...results]), chosen: found.length > 0 ? null : chosenBy(standing),
  });
  if (found.length > 0) await requestPlan(stores, call, item.incidentId, `${look.step}: ${found.join(', ')}`);
  return viewOf(triaged, found.length > 0 ? null : standing.override, before);
}

/** Dye that is now known to move, mould that is now seen or suspected. */
function newFindings(known: Assessment, observed: Assessment): StepOutcome[] {
  const mouldy = ({ mould }: Assessment) => mould === 'active' || mould === 'suspected';
  const bleeds = dyeState(observed) === 'bleeding' && dyeState(known) !== 'bleeding';
  return [...(bleeds ? (['dye-moved'] as const) : []), ...(mouldy(observed) && !mouldy(known) ? (['mould-found'] as const) : [])];
}

function resultOf(call: UseCaseCall, item: ItemRecord, look: Look, outcome: StepOutcome): StepResultRecord {
  return {
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: look.step, outcome, personId: look.personId, note: '',
    stationId: item.keeper.kind === 'station' ? item.keeper.id : null, startedAtMs: null, finishedAtMs: look.atMs, recordedAtMs: call.env.nowMs,
  };
}
