/**
 * How long and how often: the duration class of a day's lifting with its rests, and the frequency of lifting in spells.
 * Published: NIOSH 94-110, rev. 9/2021, as read in a public transcription.
 */
import { requireNumber, type NumberRule } from './climate-range.error.js';
import type { LiftDuration } from './lifting.js';

/** Lifting without a break, and the light work or rest after it. */
export interface LiftSpell {
  liftingMin: number;
  recoveryMin: number;
}

const MINUTES_RULE: NumberRule = { min: 0, max: 1440, unit: 'min' };
/** Most minutes of each class, and the rest it needs as a multiple of the work. */
const CLASSES: readonly { duration: LiftDuration; upToMin: number; recovery: number }[] = [
  { duration: 'short', upToMin: 60, recovery: 1 },
  { duration: 'moderate', upToMin: 120, recovery: 0.3 },
  { duration: 'long', upToMin: 480, recovery: Infinity },
];

/**
 * The class of a day of spells in order: a rest that is too short does not count, and the spells around it add up. `null` for more than
 * eight hours, where the equation does not hold. `recoveryNeededMin`: the rest that the last spell still asks for, 0 in the long class.
 * @throws ClimateRangeError
 */
export function liftDurationOf(spells: readonly LiftSpell[]): { duration: LiftDuration | null; recoveryNeededMin: number } {
  let longestMin = 0;
  let workedMin = 0;
  let needed = 0;
  for (const { liftingMin, recoveryMin } of spells) {
    workedMin += requireNumber('liftingMin', liftingMin, MINUTES_RULE);
    const rest = requireNumber('recoveryMin', recoveryMin, MINUTES_RULE);
    longestMin = Math.max(longestMin, workedMin);
    const asked = (classOf(workedMin)?.recovery ?? Infinity) * workedMin;
    needed = Number.isFinite(asked) ? Math.max(0, asked - rest) : 0;
    if (rest >= asked) workedMin = 0;
  }
  return { duration: classOf(longestMin)?.duration ?? null, recoveryNeededMin: needed };
}

function classOf(workedMin: number): (typeof CLASSES)[number] | undefined {
  return CLASSES.find(({ upToMin }) => workedMin <= upToMin);
}

/** Lifts a minute over a quarter of an hour, for lifting in spells shorter than that: 10 a minute for 8 of 15 minutes is 5.33. @throws ClimateRangeError */
export function spellLiftsPerMin(liftsPerMin: number, liftingMinOf15: number): number {
  const rate = requireNumber('liftsPerMin', liftsPerMin, { min: 0, max: 60, unit: 'lifts a minute' });
  return (rate * requireNumber('liftingMinOf15', liftingMinOf15, { min: 0, max: 15, unit: 'min of 15', hint: 'Lifting that goes on for a quarter of an hour or longer is not averaged.' })) / 15;
}
