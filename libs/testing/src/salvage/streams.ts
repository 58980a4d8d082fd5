/** Chance for synthetic incidents: one stream per concern, so that a change in one concern leaves all others as they were. */
import { Dice } from '#planning';

/** A fresh stream for a concern; the same concern of the same seed always begins alike. */
export type Streams = (concern: string) => Dice;

/** @param seed any text or number; the streams are derived from it and the name of the concern */
export function streamsOf(seed: number | string): Streams {
  return (concern) => new Dice(hash(`${seed}/${concern}`));
}

/**
 * About normal, mean 0 and deviation 1: twelve uniform numbers less six. Sums are exact, so it is the same on every
 * machine; beyond three deviations it is thinner than the true one, which does not matter here.
 */
export function normal(dice: Dice): number {
  let sum = -6;
  for (let i = 0; i < 12; i += 1) sum += dice.unit();
  return sum;
}

/** Log-normal with this median; always twelve draws. `Math.exp` may differ in the last bit between engines; callers round to whole units. */
export function logNormal(dice: Dice, median: number, sd: number): number {
  return median * Math.exp(sd * normal(dice));
}

/** Index of the entry in whose share the number falls; `unit` in [0, 1), shares add up to about 1. */
export function byShare(shares: readonly number[], unit: number): number {
  let left = unit;
  for (let i = 0; i < shares.length - 1; i += 1) {
    left -= shares[i]!;
    if (left < 0) return i;
  }
  return shares.length - 1;
}

/** FNV-1a, 32 bits (Fowler, Noll, Vo; from memory): only to turn a name into a seed. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) value = Math.imul(value ^ text.charCodeAt(at), 0x01000193);
  return value | 0;
}
