import type { MouldState, StepKind } from '#care';
import type { StepResultRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';

/** Steps that end a round of work: what was done before them does not count for what comes after. */
const OPENS_ROUND: ReadonlySet<StepKind> = new Set(['thaw', 'refer']);

/**
 * The steps of the present round of work that are done. A thaw or a stay with a specialist opens a new round: what was
 * done before it does not count any more.
 */
export async function doneStepsOf(stores: Stores, itemId: string): Promise<ReadonlySet<StepKind>> {
  return doneAmong(await stores.steps.ofItem(itemId));
}

/** The same from results that are loaded already, in the order they were recorded. */
export function doneAmong(results: readonly Pick<StepResultRecord, 'step' | 'outcome'>[]): ReadonlySet<StepKind> {
  const done = new Set<StepKind>();
  for (const result of results) {
    if (result.outcome !== 'done') continue;
    if (OPENS_ROUND.has(result.step)) done.clear();
    done.add(result.step);
  }
  return done;
}

/**
 * What need not be done (again): the steps done, and no surface cleaning of what was rinsed. Own judgement: the rule book
 * brushes the dirt off things that dried with it, it does not know what happened in the hall, and after a rinse that would
 * send a clean thing back to the dirty side. Mould is taken off in any case.
 */
export function settledSteps(done: ReadonlySet<StepKind>, mould: MouldState): ReadonlySet<StepKind> {
  const mouldToTakeOff = mould === 'active' || mould === 'suspected' || mould === 'dry';
  return done.has('rinse') && !mouldToTakeOff ? new Set([...done, 'surface-clean']) : done;
}
