import { DAY, momentMs } from '../calibration.js';
import { Dice } from '../dice.js';
import { rounded } from './weather.js';

const HOUR_MS = 3_600_000;
/** The trailer was on the road with its machine off; then it cools down, to about its set point. Our guesses. */
const TRAILER = { arrivesC: 4, setPointC: -20, coolsInH: 0.7 } as const;

/** When somebody walks round with a thermometer. */
export const FREEZER_ROUNDS: readonly number[] = [momentMs(1, 8), momentMs(1, 11), momentMs(1, 14), momentMs(1, 17), momentMs(1, 20), momentMs(2, 8), momentMs(2, 11), momentMs(2, 14)];

/** What the thermometer of the trailer shows. */
export function trailerTempC(seed: number, atMs: number): number {
  const hours = Math.max(0, (atMs - DAY.trailerFromMs) / HOUR_MS);
  return rounded(TRAILER.setPointC + (TRAILER.arrivesC - TRAILER.setPointC) * Math.exp(-hours / TRAILER.coolsInH) + Dice.of(seed, 'trailer', atMs).int(-3, 3) / 10, 1);
}

/** A chest freezer in good order: about two degrees around its set point. */
export function chestTempC(seed: number, freezer: string, setPointC: number, atMs: number): number {
  return rounded(setPointC + Dice.of(seed, 'chest', freezer, atMs).int(-8, 22) / 10, 1);
}
