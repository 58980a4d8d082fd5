/** On what each number of a climate estimate rests: published, common practice, from memory or our own calibration. */
import { say, type Message } from '#care';
import { CALIBRATION, type CalibrationKey, type CalibrationValues, type NumberMark } from '#climate';

/** One constant that an answer used. */
export interface Basis {
  /** Stable name. */
  what: string;
  /** `null` for a table or a formula. */
  value: number | null;
  unit: string;
  mark: NumberMark;
  source: Message;
}

/** A constant that no network changes. */
export function fixed(what: string, value: number | null, unit: string, mark: NumberMark, source: Message): Basis {
  return { what, value, unit, mark, source };
}

/** Numbers of our own calibration, as the network has set them. */
export function own(values: CalibrationValues, keys: readonly CalibrationKey[], source: Message): Basis[] {
  return keys.map((key) => ({ what: key, value: values[key], unit: CALIBRATION[key].unit, mark: 'own-calibration', source }));
}

/** The network can look each of them up and set it. */
export const OWN_TABLE = say('Our own calibration, not a published fact: what it leans on stands in the calibration of the network, where it can be set.');
