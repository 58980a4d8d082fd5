import type { CalibrationDecision, CalibrationLibrary } from '../ports/calibration-store.js';
import { CALIBRATION_LIBRARIES } from '../ports/calibration-store.js';
import { ownValues } from './in-force.js';
import { TABLES, type CalibrationEntry } from './tables.js';

/** One number of our own calibration, with what the network made of it. */
export interface CalibrationNumber {
  library: CalibrationLibrary;
  key: string;
  entry: CalibrationEntry;
  inForce: number;
  /** The newest decision about it, that to return to the default as well; null when there was none. */
  decision: CalibrationDecision | null;
  /** A value was decided, but this version of the program cannot take it any more: the default stands. */
  lapsed: boolean;
}

export interface CalibrationView {
  /** Number of the newest decision of the network, 0 for none. */
  number: number;
  numbers: CalibrationNumber[];
}

/** Every number of every library, in the order of the tables. */
export function calibrationView(decisions: readonly CalibrationDecision[]): CalibrationView {
  return {
    number: Math.max(0, ...decisions.map(({ number }) => number)),
    numbers: CALIBRATION_LIBRARIES.flatMap((library) => {
      const own = ownValues(library, decisions);
      return Object.entries(TABLES[library]).map(([key, entry]) => {
        const decision = decisions.find((one) => one.library === library && one.key === key) ?? null;
        return { library, key, entry, inForce: own[key] ?? entry.value, decision, lapsed: decision !== null && decision.value !== null && own[key] === undefined };
      });
    }),
  };
}
