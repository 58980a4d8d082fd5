import { STEP_KINDS, type MouldState, type StepKind } from '#care';
import type { StepResultRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';

/** Steps after which the work begins anew: whatever was done before them counts no longer. */
const BEGINS_ANEW: ReadonlySet<StepKind> = new Set(['thaw', 'refer']);

/** What counts as done no longer once a step is done. What a finding undoes is decided where it is found (wet-again.ts). */
export function undoneByDoing(step: StepKind): readonly StepKind[] {
  return BEGINS_ANEW.has(step) ? STEP_KINDS : [];
}

/** The steps that are done in the present round of work. */
export async function doneStepsOf(stores: Stores, itemId: string): Promise<ReadonlySet<StepKind>> {
  return doneAmong(await stores.steps.ofItem(itemId));
}

/**
 * The same from results that are loaded already, in the order they were recorded: a step counts as done until a later result
 * undoes it. `stillDone` (persistence/planning/item-input-sql.ts) says the same in SQL.
 */
export function doneAmong(results: readonly Pick<StepResultRecord, 'step' | 'outcome' | 'undoes'>[]): ReadonlySet<StepKind> {
  return new Set(countedAmong(results).keys());
}

/** For each step that counts as done, the result by which it does. */
export function countedAmong<R extends Pick<StepResultRecord, 'step' | 'outcome' | 'undoes'>>(results: readonly R[]): ReadonlyMap<StepKind, R> {
  const counted = new Map<StepKind, R>();
  for (const result of results) {
    for (const step of result.undoes) counted.delete(step);
    if (result.outcome === 'done') counted.set(result.step, result);
  }
  return counted;
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
