/** What a new look says against an earlier one about things that do not change by themselves. */
import { say, wordsOfAnswer, type Assessment, type Hazard, type MaterialClass, type Message, type WaterKind } from '#care';
import { AT_THE_TOP, faultOf, pointerTo, type Fault } from './contradicted.js';
import type { StepResultRecord } from '../ports/step-store.js';
import { doneAmong } from './done-steps.js';
import { isWetter, tellsNewWetting, type Earlier } from './wet-again.js';

/** What was seen now; what is left out was not spoken of. */
type Seen = Partial<Assessment>;

interface Check {
  member: keyof Assessment;
  /** What stands on record, in words, when the new look speaks against it. */
  against: (earlier: Earlier, seen: Seen) => Message | string | null;
}

/** Classes that say that nobody knows. */
const NOT_KNOWN: ReadonlySet<MaterialClass> = new Set<MaterialClass>(['unknown', 'photo-unknown-process']);
const DIRT: Readonly<Record<Exclude<WaterKind, 'unknown'>, number>> = { clean: 0, grey: 1, black: 2, salt: 2 };
const dirt = (water: WaterKind | undefined): number | null => (water === undefined || water === 'unknown' ? null : DIRT[water]);

// Own judgement, what counts: another material or fibre; and where only the milder word is dangerous, that one.
const CHECKS: readonly Check[] = [
  {
    member: 'materialClass',
    against: ({ known }, { materialClass }) => (materialClass !== undefined && !NOT_KNOWN.has(materialClass) && !NOT_KNOWN.has(known.materialClass) && materialClass !== known.materialClass ? wordsOfAnswer('materialClass', known.materialClass) : null),
  },
  { member: 'fibre', against: ({ known }, { fibre }) => (fibre !== undefined && fibre !== 'unknown' && known.fibre !== 'unknown' && fibre !== known.fibre ? wordsOfAnswer('fibre', known.fibre) : null) },
  { member: 'alreadyBled', against: ({ known }, { alreadyBled }) => (known.alreadyBled === true && alreadyBled === false ? say('dye that had run') : null) },
  {
    member: 'water',
    against: ({ known }, { water }) => ((dirt(water) ?? Infinity) < (dirt(known.water) ?? -Infinity) ? wordsOfAnswer('water', known.water) : null),
  },
  { member: 'wettedAtMs', against: (earlier, seen) => (earlier.known.wettedAtMs !== null && isLater(seen.wettedAtMs, earlier.known.wettedAtMs) && !tellsNewWetting(earlier, seen) ? say('an earlier wetting, {moment}', { moment: new Date(earlier.known.wettedAtMs).toISOString() }) : null) },
  { member: 'mould', against: ({ known, results }, { mould }) => (known.mould === 'active' && mould === 'none' && !doneAmong(results).has('surface-clean') ? say('active mould, and nobody has taken it off') : null) },
  { member: 'hazards', against: ({ known }, { hazards }) => (hazards === undefined ? null : listed(known.hazards.filter((hazard) => !hazards.includes(hazard)))) },
];

const isLater = (told: number | null | undefined, knownMs: number): boolean => (told ?? -Infinity) > knownMs;
const listed = (hazards: readonly Hazard[]): string | null => (hazards.length === 0 ? null : hazards.map((hazard) => `\`${hazard}\``).join(', '));

/** Somebody has looked at the thing before. What was told at the doorway is no look: the first one puts it right. */
export function wasLookedAt(results: readonly Pick<StepResultRecord, 'step' | 'outcome'>[]): boolean {
  return results.some(({ step, outcome }) => step === 'assess' && outcome === 'done');
}

/** One fault for each thing that an earlier look recorded otherwise. */
export function againstEarlierLook(earlier: Earlier, seen: Seen): Fault[] {
  const faults = CHECKS.flatMap(({ member, against }) => {
    const stands = against(earlier, seen);
    return stands === null ? [] : [faultOf(say('An earlier look recorded: {what}. That does not change by itself.', { what: stands }), 'earlier_look', pointerTo(member, AT_THE_TOP))];
  });
  return [...faults, ...wetterThanBefore(earlier, seen)];
}

/** What a thaw left is only reckoned; it binds nobody until somebody has looked. */
function wetterThanBefore(earlier: Earlier, seen: Seen): Fault[] {
  const { known, results } = earlier;
  if (!isWetter(known.wetState, seen.wetState) || tellsNewWetting(earlier, seen) || !doneAmong(results).has('assess')) return [];
  const words = { what: wordsOfAnswer('wetState', known.wetState) };
  return [faultOf(say('It was {what} before, and nothing gets wetter by itself. If it got wet again, say when it did.', words), 'earlier_look', pointerTo('wetState', AT_THE_TOP))];
}

export const SEEN_AGAIN_ADVICE = say('Where an earlier look was wrong, send the same again as seen again, with the reason; both looks stay on record.');
