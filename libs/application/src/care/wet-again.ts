/**
 * What new evidence about water and mould does to the work so far: which steps count as done no longer, and from when the clocks
 * run. Own judgement throughout: the rule book says what to do with a thing in a state, not when its state makes work undone.
 */
import type { Assessment, MouldState, StepKind, WetState } from '#care';
import type { Stage } from '#custody';
import type { StepResultRecord } from '../ports/step-store.js';
import { countedAmong } from './done-steps.js';

/** What is on record of a thing when somebody looks at it again. */
export interface Earlier {
  stage: Stage;
  known: Assessment;
  /** In the order in which they were recorded. */
  results: readonly StepResultRecord[];
}

/** What a look makes of the work so far. */
export interface WetAgain {
  /** It was dry, or its drying had ended, and it got wet again: a new round of work begins and a lead's choice for the old one is over. */
  again: boolean;
  /** Steps that were done and count as done no longer. */
  undoes: readonly StepKind[];
  /** What the look says of the wetting without having been told. */
  follows: Partial<Pick<Assessment, 'wetState' | 'wettedAtMs'>>;
}

/** What water spoils. Tag, photograph, look and colour test are facts about the thing and stay done. */
const SPOILED: readonly StepKind[] = ['stabilise', 'rinse', 'blot', 'dry', 'check', 'surface-clean', 'wrap', 'pack'];
/** What rests on the drying: a thing that is still damp after it hangs again, but is not washed again. */
const RESTS_ON_DRYING: readonly StepKind[] = ['dry', 'check', 'surface-clean', 'wrap', 'pack'];
/** What is frozen or away is looked at again when it is thawed or back. */
const NOT_HERE: ReadonlySet<Stage> = new Set<Stage>(['held-frozen', 'referred-out']);

const WETNESS: Readonly<Record<Exclude<WetState, 'unknown'>, number>> = { dry: 0, damp: 1, wet: 2, dripping: 3 };
const wetness = (state: WetState | undefined): number | null => (state === undefined || state === 'unknown' ? null : WETNESS[state]);

/** Said to be wetter than it was known to be. No thing gets wetter by itself. */
export function isWetter(known: WetState, seen: WetState | undefined): boolean {
  const [before, now] = [wetness(known), wetness(seen)];
  return before !== null && now !== null && now > before;
}

/** When it was last known to be dry, or its drying had ended; null when it was neither in this round of work. */
function lastDryAtMs({ known, results }: Earlier): number | null {
  const counted = countedAmong(results);
  const ends = (['dry', 'check'] as const).flatMap((step) => counted.get(step)?.finishedAtMs ?? []);
  if (ends.length > 0) return Math.max(...ends);
  return known.wetState === 'dry' ? (counted.get('assess')?.finishedAtMs ?? null) : null;
}

/** A time of wetting is told that lies after the drying: no correction of the first one, but another wetting. */
export function tellsNewWetting(earlier: Earlier, { wettedAtMs }: Partial<Assessment>): boolean {
  const dryAtMs = lastDryAtMs(earlier);
  return !NOT_HERE.has(earlier.stage) && dryAtMs !== null && wettedAtMs != null && wettedAtMs > dryAtMs && wettedAtMs > (earlier.known.wettedAtMs ?? -Infinity);
}

/**
 * Judges a look at a thing, once what speaks against an earlier look has been refused or explained. Without a time told, the
 * new wetting counts from when a check last found the thing dry, and where no check did, from the first wetting.
 */
export function wetAgain(earlier: Earlier, seen: Partial<Assessment>): WetAgain {
  if (NOT_HERE.has(earlier.stage)) return { again: false, undoes: [], follows: {} };
  const counted = countedAmong(earlier.results);
  const done = (steps: readonly StepKind[]): StepKind[] => steps.filter((step) => counted.has(step));
  const wetter = isWetter(earlier.known.wetState, seen.wetState);
  const told = tellsNewWetting(earlier, seen);
  if (told || (wetter && lastDryAtMs(earlier) !== null)) {
    const checkedAtMs = counted.get('check')?.finishedAtMs;
    const since = seen.wettedAtMs === undefined && checkedAtMs !== undefined ? { wettedAtMs: checkedAtMs } : {};
    return { again: true, undoes: done(SPOILED), follows: { ...since, ...(seen.wetState === undefined ? { wetState: 'unknown' as const } : {}) } };
  }
  const wetNow = (wetness(seen.wetState) ?? 0) > 0;
  if (wetNow && counted.has('dry')) return { again: false, undoes: done(RESTS_ON_DRYING), follows: {} };
  return { again: false, undoes: wetter ? done(['blot']) : [], follows: {} };
}

/**
 * What mould that comes to light undoes: it is taken off (again) and looked at, wrapped things are unwrapped for it, and what is
 * not known to be dry is dried again, because mould lives on the water that is left.
 */
export function undoneByMould({ stage, results }: Pick<Earlier, 'stage' | 'results'>, wetState: WetState): StepKind[] {
  if (stage === 'held-frozen') return [];
  const counted = countedAmong(results);
  const dried: StepKind[] = counted.has('dry') ? ['wrap', 'pack', ...(wetState === 'dry' ? [] : (['dry'] as const))] : [];
  return [...(['surface-clean', 'check'] as const), ...dried].filter((step) => counted.has(step));
}

/** Mould that lives, or may. */
export function isAlive(mould: MouldState): boolean {
  return mould === 'active' || mould === 'suspected';
}

/** Mould that needs taking off and was not known; after a cleaning also what is dead. */
export function isNewMould({ known, results }: Pick<Earlier, 'known' | 'results'>, mould: MouldState): boolean {
  if (isAlive(mould)) return !isAlive(known.mould);
  return mould === 'dry' && (known.mould === 'none' || known.mould === 'unknown') && countedAmong(results).has('surface-clean');
}
