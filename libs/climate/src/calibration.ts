/**
 * Every number that is ours. Nothing in this table is a published fact; each line says what it leans on. A network may
 * override any of them (`calibrate`), and screens that show a result built on them must be able to show this table.
 */
import { ClimateRangeError, requireNumber } from './climate-range.error.js';

/** One calibration value with its limits, and why it is what it is. */
export interface CalibrationEntry {
  readonly value: number;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly mark: 'own-calibration';
  readonly why: string;
}

function own(value: number, unit: string, min: number, max: number, why: string): CalibrationEntry {
  return Object.freeze({ value, unit, min, max, mark: 'own-calibration', why });
}

/** The table of our own values, for display and as the defaults of every model here. */
export const CALIBRATION = Object.freeze({
  packedRackFactor: own(0.35, '-', 0.01, 3, 'Less than 10 cm between faces, no fan: natural convection on a 1 m sheet computed at 0.35 of the pool level. Refit from weighings.'),
  openRackFactor: own(0.65, '-', 0.01, 3, 'Open rack or single line, no fan: computed 0.65; undisturbed pools were measured at 74 % (ASHRAE Transactions 1998, 104-1A, abstract). Refit from weighings.'),
  fanAcrossFactor: own(1, '-', 0.01, 3, 'Fan moving air over the faces with a measured air speed. Refit from weighings.'),
  stillAirSpeedMPerS: own(0.1, 'm/s', 0, 2, 'Air speed assumed in a room without fans when nobody measured it.'),
  facesFlatOnBoard: own(1, 'faces', 0.05, 2, 'One free face.'),
  facesFlatOnMesh: own(1.7, 'faces', 0.05, 2, 'The lower face breathes through the mesh, less than freely.'),
  facesHungSingle: own(2, 'faces', 0.05, 2, 'Both faces free.'),
  facesDrapedDouble: own(1.1, 'faces', 0.05, 2, 'Draped double over a line: the inner faces hardly breathe.'),
  facesHeap: own(0.2, 'faces', 0.05, 2, 'A heap dries only at its skin.'),
  minimumCriticalX: own(0.05, 'kg/kg', 0, 1, 'Fibres that take up almost no water still hold it between the yarns.'),
  dryTargetMarginX: own(0.01, 'kg/kg', 0, 0.2, 'Dry means the regain at 65 % RH plus this much, then condition at or below 65 % RH.'),
  dryTargetActivityMax: own(0.74, 'aw', 0.5, 0.79, 'Keeps the target of low-regain fibres below every mould threshold used here, where the margin alone would not.'),
  drippingOfCeiling: own(0.6, 'of pore ceiling', 0, 1, 'Share of the pore-full ceiling held while dripping. Measure and refit.'),
  drainedOfCeiling: own(0.4, 'of pore ceiling', 0, 1, 'Share of the pore-full ceiling held once dripping has stopped. Measure and refit.'),
  drippingX: own(2.5, 'kg/kg', 0, 10, 'Dripping, when thickness and areal mass are not known: middle of the 200-300 % of the care guidance. Measure and refit.'),
  drainedX: own(1.65, 'kg/kg', 0, 10, 'Drained, when thickness and areal mass are not known: two thirds of dripping, as the ceiling shares. Measure and refit.'),
  handWrungX: own(1, 'kg/kg', 0, 10, 'Hand-wrung everyday cloth (treasures are never wrung). Measure and refit.'),
  blottedX: own(0.8, 'kg/kg', 0, 10, 'Thin goods blotted in towels. Measure and refit.'),
  paddedBlottedX: own(1.25, 'kg/kg', 0, 10, 'Padded goods blotted in towels: middle of the 100-150 % of the care guidance. Weigh ten and refit.'),
  spunX: own(0.575, 'kg/kg', 0, 10, 'Domestic spin of utility textiles, middle of 0.5-0.65; one informal measurement gave 0.63.'),
  thinErrorFraction: own(0.3, '-', 0, 0.9, 'The evaporation level is trusted to +-30 % until fitted from two weighings per class.'),
  thickSlowdownMax: own(4, 'times', 1, 50, 'Thick or closed goods: upper end of the band as a multiple of the thin-goods time. Weigh and extrapolate instead.'),
  frostFadeStartTempC: own(15, 'C', 10, 21, 'Below this a refrigerant coil begins to frost; also the lower edge at which the published curve is read.'),
  frostFadeEndTempC: own(5, 'C', -5, 9.9, 'At and below this a refrigerant dehumidifier is counted as removing nothing.'),
  promiseFactorMax: own(1, '-', 0, 1.5, 'A promise never counts on more than the rating.'),
  roomCapPct: own(75, '%', 40, 95, 'Room humidity that must not be passed, so that one rack does not endanger everything else in the room.'),
  nearCapPct: own(5, '%', 0, 30, 'How far below the cap a room is called close to it.'),
  ventilationMarginKgPerKg: own(0.0005, 'kg/kg', 0, 0.01, 'Outdoor air must be drier by at least this before opening windows is advised: about the error of two ordinary hygrometers.'),
  mouldHoursAtReference: own(48, 'h', 6, 500, 'Hours to red at 22 C and saturation: calibrated to the agency rule "dry or freeze within 48 h", not to experiments.'),
  mouldHoursShortest: own(24, 'h', 6, 500, 'Short end of the band that the sources span at room temperature.'),
  mouldHoursLongest: own(72, 'h', 6, 1000, 'Long end of the band that the sources span at room temperature.'),
  amberDose: own(0.5, '-', 0, 1, 'The 24 h end of the 24-48 h rule.'),
  redDose: own(1, '-', 0.1, 2, 'The 48 h end of the rule.'),
  mouldPlateauTempC: own(35, 'C', 22, 50, 'Growth is not counted faster above this temperature.'),
  cleanSyntheticFactor: own(0.578, '-', 0, 1, 'Ratio of two published building-material classes (Ojanen et al. 2010) lent to clean synthetics.'),
} satisfies Record<string, CalibrationEntry>);

/** The name of one calibration value. */
export type CalibrationKey = keyof typeof CALIBRATION;
/** Plain numbers that the models read. */
export type CalibrationValues = Readonly<Record<CalibrationKey, number>>;

/**
 * The defaults with a network's own fits put over them.
 * @throws ClimateRangeError for an unknown name, a value out of its limits, or a set that contradicts itself.
 */
export function calibrate(overrides: Partial<Record<CalibrationKey, number>> = {}): CalibrationValues {
  const values = Object.fromEntries(Object.entries(CALIBRATION).map(([key, entry]) => [key, entry.value])) as Record<CalibrationKey, number>;
  for (const [key, value] of Object.entries(overrides)) {
    if (!Object.hasOwn(CALIBRATION, key)) {
      throw new ClimateRangeError(`${key} is not a calibration value; the table of the climate library lists the names.`, key);
    }
    if (value === undefined) continue;
    const { min, max, unit } = CALIBRATION[key as CalibrationKey];
    values[key as CalibrationKey] = requireNumber(key, value, { min, max, unit });
  }
  requireOrder(values, 'amberDose', 'redDose');
  requireOrder(values, 'mouldHoursShortest', 'mouldHoursAtReference');
  requireOrder(values, 'mouldHoursAtReference', 'mouldHoursLongest');
  return Object.freeze(values);
}

function requireOrder(values: CalibrationValues, lower: CalibrationKey, upper: CalibrationKey): void {
  if (values[lower] > values[upper]) {
    throw new ClimateRangeError(`${lower} (${values[lower]}) may not exceed ${upper} (${values[upper]}).`, lower);
  }
}

/** The values in force when a network has fitted nothing of its own. */
export const DEFAULT_CALIBRATION: CalibrationValues = calibrate();
