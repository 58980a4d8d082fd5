/**
 * The numbers of the people checks. All of them are our own calibration, which a network may set for itself; screens that show
 * a refusal built on them must be able to show this table.
 */

/** Numbers of the people checks, in the units of `PEOPLE_CALIBRATION`. */
export interface PeopleCalibration {
  /** Most hours on shift without a real break. */
  consecutiveHoursMax: number;
  /** A break of this many hours counts as rest: about a night. */
  restHours: number;
  /** A heat that stops work is taken to hold this many hours in a plan. */
  heatHoldsHours: number;
  /** True: a filtering mask (N95) that a step asks for needs medical fitness and a fit test like any tight respirator. */
  fitForRequiredMask: boolean;
}

export type PeopleCalibrationKey = keyof PeopleCalibration;

/** One number with its limits, and why it is what it is. A switch is 1 for yes and 0 for no. */
export interface PeopleCalibrationEntry {
  readonly value: number;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** Only whole numbers make sense. */
  readonly whole: boolean;
  readonly mark: 'own-calibration';
  readonly why: string;
}

function own(value: number, unit: string, [min, max]: readonly [number, number], why: string, whole = false): PeopleCalibrationEntry {
  return Object.freeze({ value, unit, min, max, whole, mark: 'own-calibration', why });
}

/** The table of our own values, for display and as the defaults. */
export const PEOPLE_CALIBRATION: Readonly<Record<PeopleCalibrationKey, PeopleCalibrationEntry>> = Object.freeze({
  consecutiveHoursMax: own(13, 'h', [4, 16], 'Most hours on shift without a real break. 13 is what 11 hours of daily rest leave of a day (Directive 2003/88/EC, Article 3, from memory); using it for volunteers, and counting hours on shift, is ours. Local law comes first.'),
  restHours: own(8, 'h', [6, 24], 'A break of this many hours counts as rest: about a night. The Directive asks for 11 hours a day of workers (from memory); set 11 where it binds you.'),
  heatHoldsHours: own(6, 'h', [1, 24], 'A heat that stops work is taken to hold this many hours from the making of a plan, about an afternoon; the plan puts what nobody may do in it after them. Nobody knows the weather of the hall: measure, and say when it changes.'),
  fitForRequiredMask: own(1, '1 = yes, 0 = no', [0, 1], 'Yes: whoever is asked to wear a filtering mask (N95) counts as a required wearer under 29 CFR 1910.134, which then asks for a medical evaluation and a fit test. No: only tight respirators ask for it. Local law comes first.', true),
});

/** A number of the people checks that is unknown or lies out of its limits. */
export class PeopleCalibrationError extends RangeError {
  override readonly name = 'PeopleCalibrationError';
}

/** The defaults with a network's own values put over them. @throws PeopleCalibrationError for an unknown name, or a value out of its limits */
export function calibratePeople(overrides: Readonly<Partial<Record<PeopleCalibrationKey, number>>> = {}): PeopleCalibration {
  for (const [key, value] of Object.entries(overrides)) requireWithin(key, value);
  const numberOf = (key: PeopleCalibrationKey) => overrides[key] ?? PEOPLE_CALIBRATION[key].value;
  return Object.freeze({ consecutiveHoursMax: numberOf('consecutiveHoursMax'), restHours: numberOf('restHours'), heatHoldsHours: numberOf('heatHoldsHours'), fitForRequiredMask: numberOf('fitForRequiredMask') === 1 });
}

function requireWithin(key: string, value: number): void {
  if (!Object.hasOwn(PEOPLE_CALIBRATION, key)) throw new PeopleCalibrationError(`${key} is no number of the people checks; there are ${Object.keys(PEOPLE_CALIBRATION).join(', ')}.`);
  const { min, max, unit, whole } = PEOPLE_CALIBRATION[key as PeopleCalibrationKey];
  if (value >= min && value <= max && (!whole || Number.isInteger(value))) return;
  throw new PeopleCalibrationError(`${key} is ${value}; it must be ${whole ? 'a whole number ' : ''}from ${min} to ${max} (${unit}).`);
}

/** The values in force when a network has set nothing of its own. */
export const DEFAULT_PEOPLE_CALIBRATION: PeopleCalibration = calibratePeople();
