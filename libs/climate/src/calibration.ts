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
  dampOfBlotted: own(0.75, 'of blotted', 0.1, 1, 'What somebody calls damp, or dry to the touch, holds this share of what it would hold blotted, until it is weighed. Measure and refit.'),
  dampOfBlottedMost: own(1, 'of blotted', 0.1, 3, 'And at most this share: the wet end of its band.'),
  spunX: own(0.575, 'kg/kg', 0, 10, 'Domestic spin of utility textiles, middle of 0.5-0.65; one informal measurement gave 0.63.'),
  arrangementPriorSpread: own(0.4, '-', 0.05, 1.5, 'How far the arrangement factor of a place may lie from the general one before anybody has weighed: standard deviation of its logarithm, 0.4 for about +-50 %.'),
  arrangementScatter: own(0.15, '-', 0.01, 1, 'By how much like goods on the same rack dry faster or slower than each other: a share, the spread of its half-normal prior.'),
  thickSpreadTimes: own(2, 'times', 1, 5, 'Thick or closed goods: both spreads of the fit are this much wider.'),
  classDryMassError: own(0.3, '-', 0, 1, 'How far the dry mass of a thing may lie from that of its size class: a share. A weighing counts in a fit only if the thing is clearly wet even so.'),
  bandDryMassError: own(0.15, '-', 0, 0.5, 'How far the dry mass of a thing is taken to lie from that of its size class in the band of its water and of its dry moment: a share, either way. Fits leave out more (classDryMassError).'),
  bandWaterError: own(0.25, '-', 0, 0.9, 'How far the water of a thing that nobody weighed is taken to lie from the usual water of its stage, in the same band: a share, either way.'),
  scaleErrorDivisions: own(1, 'divisions', 0.3, 5, 'How many of its smallest steps a scale may be off either way. A scale in trade use: about one (OIML R 76, from memory).'),
  hygrometerErrorPct: own(3, '%', 0.5, 10, 'Error of an ordinary hygrometer in points of relative humidity.'),
  weighAgainMinH: own(1, 'h', 0.1, 24, 'Nobody is sent to the scale again sooner than this.'),
  weighAgainMaxH: own(12, 'h', 1, 72, 'A drying thing is weighed again at the latest after this.'),
  restHoursThin: own(2, 'h', 0.5, 48, 'Thin goods: weight must have stood still for at least this before they count as at rest.'),
  restHoursThick: own(24, 'h', 4, 240, 'Thick or closed goods dry from inside: weight must have stood still for at least this.'),
  thinErrorFraction: own(0.3, '-', 0, 0.9, 'The evaporation level is trusted to +-30 % until fitted from two weighings per class.'),
  thickSlowdownMax: own(4, 'times', 1, 50, 'Thick or closed goods: upper end of the band as a multiple of the thin-goods time. Weigh and extrapolate instead.'),
  frostFadeStartTempC: own(15, 'C', 10, 21, 'Below this a refrigerant coil begins to frost; also the lower edge at which the published curve is read.'),
  frostFadeEndTempC: own(5, 'C', -5, 9.9, 'At and below this a refrigerant dehumidifier is counted as removing nothing.'),
  promiseFactorMax: own(1, '-', 0, 1.5, 'A promise never counts on more than the rating.'),
  litresPerKwhAtRating: own(1.6, 'L/kWh', 0.3, 6, 'Energy factor at the rating point of a machine whose label does not say: low among portable refrigerant units (1.3-2.8 from memory), so that electric load is not made small.'),
  circuitContinuousW: own(1440, 'W', 200, 20000, 'Continuous load that one socket circuit is counted for: 80 % of 15 A at 120 V (from memory). Set it to your own supply; a licensed electrician decides.'),
  fanPowerW: own(100, 'W', 5, 2000, 'Electric power of one fan when nobody gives it.'),
  roomCapPct: own(75, '%', 40, 95, 'Room humidity that must not be passed, so that one rack does not endanger everything else in the room.'),
  nearCapPct: own(5, '%', 0, 30, 'How far below the cap a room is called close to it.'),
  worthwhileSaving: own(0.15, 'share', 0, 1, 'A change is called worth while when it saves at least this share of the drying time, or brings the room below its cap.'),
  ventilationMarginKgPerKg: own(0.0005, 'kg/kg', 0, 0.01, 'Outdoor air must be drier by at least this before opening windows is advised: about the error of two ordinary hygrometers.'),
  readingHoldH: own(3, 'h', 0.1, 48, 'A reading of the room air holds until the next one, but no longer than this; after that the air is reckoned from it.'),
  mouldHoursAtReference: own(48, 'h', 6, 500, 'Hours to red at 22 C and saturation: calibrated to the agency rule "dry or freeze within 48 h", not to experiments.'),
  mouldHoursShortest: own(24, 'h', 6, 500, 'Short end of the band that the sources span at room temperature.'),
  mouldHoursLongest: own(72, 'h', 6, 1000, 'Long end of the band that the sources span at room temperature.'),
  amberDose: own(0.5, '-', 0, 1, 'The 24 h end of the 24-48 h rule.'),
  redDose: own(1, '-', 0.1, 2, 'The 48 h end of the rule.'),
  mouldPlateauTempC: own(35, 'C', 22, 50, 'Growth is not counted faster above this temperature.'),
  cleanSyntheticFactor: own(0.578, '-', 0, 1, 'Ratio of two published building-material classes (Ojanen et al. 2010) lent to clean synthetics.'),
  readingGapMeasuredMaxH: own(1, 'h', 0.05, 24, 'Two readings of a place no further apart than this count as measuring what lies between them (a straight line).'),
  readingGapInterpolatedMaxH: own(3, 'h', 0.05, 48, 'Up to this the straight line between two readings is taken, and the last reading is held; what lasts longer is filled on the cautious side.'),
  assumedTempC: own(25, 'C', 0, 45, 'Air where nobody measured and the air outside is unknown: the warm-weather figure that the rule book takes, too.'),
  freezerAssumedTempC: own(-18, 'C', -60, 0, 'A freezer that nobody reads is taken to hold the usual 0 F. Read it: one that has failed does not say so.'),
  wbgtStillAirMarginC: own(0.5, 'C', 0, 5, 'Added to the estimate for a hall without moving air: the natural wet bulb stays warmer there than the ventilated one. A meter needs none.'),
  wbgtOutdoorMarginC: own(0, 'C', 0, 8, 'Added to the outdoor screening estimate, which assumes moderate sun and light wind: raise it for strong sun or no wind.'),
  sensorJumpTempC: own(4, 'K', 0.5, 50, 'A sensor may move by this much at once, as when a door opens; see sensorJumpTempCPerMin.'),
  sensorJumpTempCPerMin: own(1, 'K/min', 0.05, 20, 'And by this much for every minute since its reading before. Faster than both together is a jump, which a second reading of the same kind confirms.'),
  sensorJumpHumidityPct: own(20, '%', 2, 100, 'As sensorJumpTempC, for relative humidity: an opened door brings ten to fifteen points in a minute.'),
  sensorJumpHumidityPctPerMin: own(5, '%/min', 0.1, 100, 'As sensorJumpTempCPerMin, for relative humidity.'),
  freezerJumpTempC: own(15, 'K', 1, 60, 'As sensorJumpTempC, in a freezer, whose air warms at once when it is opened and filled.'),
  freezerJumpTempCPerMin: own(3, 'K/min', 0.05, 20, 'As sensorJumpTempCPerMin, in a freezer.'),
  sensorStuckH: own(6, 'h', 0.5, 72, 'A sensor of a room that shows exactly the same temperature and humidity for this long is asked about: air moves at least by a digit.'),
  sensorStuckReadings: own(12, 'readings', 3, 500, 'And only with at least this many readings in that time.'),
  sensorSaturatedPct: own(99.5, '%', 90, 100, 'From here air counts as saturated; a sensor that got wet shows 100 % for days.'),
  sensorSaturatedH: own(6, 'h', 0.5, 72, 'Saturated air for this long beside a running dehumidifier is asked about.'),
  sensorUnitTempC: own(45, 'C', 30, 60, 'Indoors at and above this a reading is asked about: 45 to 60 are everyday numbers in Fahrenheit (7 to 16 C).'),
  readingBeforeFloodD: own(14, 'days', 0, 400, 'A reading from longer before the flood has a wrong date.'),
  weighingClassFactorMax: own(3, 'times', 1, 20, 'A thing may be this many times as heavy as its size class before a weight is refused: classes are rough.'),
  weighingClassFactorMin: own(0.25, 'times', 0.01, 1, 'Below this share of the dry mass of its size class a weight is refused.'),
  weighingDoubtFactorMin: own(0.75, 'times', 0.01, 1, 'Below this share of the dry mass of its size class a weight is asked about.'),
  thinCeilingX: own(8, 'kg/kg', 0.5, 30, 'Most water in thin cloth: a towel of 0.5 kg/m2 and 4 mm has pores for 7.3 (own formula, poreCeilingX), and some runs off its surface.'),
  paddedCeilingX: own(12, 'kg/kg', 0.5, 80, 'Most water in padded goods as they are lifted onto a scale: batting holds more than cloth, and drains under its own weight.'),
  paperCeilingX: own(3, 'kg/kg', 0.5, 30, 'Most water in sheets, prints and books: soaked old books reach 2 (US National Archives), and water stands between pages.'),
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
  requireOrder(values, 'readingGapMeasuredMaxH', 'readingGapInterpolatedMaxH');
  requireOrder(values, 'weighingClassFactorMin', 'weighingDoubtFactorMin');
  requireOrder(values, 'dampOfBlotted', 'dampOfBlottedMost');
  return Object.freeze(values);
}

function requireOrder(values: CalibrationValues, lower: CalibrationKey, upper: CalibrationKey): void {
  if (values[lower] > values[upper]) {
    throw new ClimateRangeError(`${lower} (${values[lower]}) may not exceed ${upper} (${values[upper]}).`, lower);
  }
}

/** The values in force when a network has fitted nothing of its own. */
export const DEFAULT_CALIBRATION: CalibrationValues = calibrate();
