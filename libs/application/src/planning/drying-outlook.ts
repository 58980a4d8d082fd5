/**
 * Hours and water load of things on a drying place, for the planner and the drying list. The physics is that of the
 * climate library; what stands in `DRYING_CALIBRATION` is our own calibration and no published fact.
 */
import { BOOK_UPTAKE, DEFAULT_CALIBRATION, dryTargetX, dryingForecast, dryingLaw, dryingTimeH, moistureAtStageX, STANDARD_ITEM_KINDS, standardExposedAreaM2, standardItem, type CalibrationValues, type StandardItem, type StandardItemKind } from '#climate';

/** Air of a room as measured. */
export interface AirNow {
  airTempC: number;
  relativeHumidityPct: number;
}

/** What to expect of one thing in steady air. */
export interface DryingOutlook {
  /** Hours for which a plan holds the place. */
  planHours: number;
  /** Band for people; null for closed things such as books, of which no formula here knows. */
  earliestH: number | null;
  latestH: number | null;
  /** Water to leave, in parts of the dry mass. */
  waterX: number;
}

/** Own calibration: measure and change. */
export const DRYING_CALIBRATION = {
  /**
   * Thick goods (quilts) keep their place for this multiple of the thin-goods time: the geometric middle of 1 and the
   * climate library's upper end of 4. Weigh twice and replan; a single number is false precision.
   */
  thickFactor: 2,
  /** No drying counts longer than this in a plan; what is wet still keeps its place and is planned again from there. */
  longestHours: 72,
  /** A drying counts at least this long. */
  shortestHours: 1,
  /** Things on racks, screens and tables lie in one layer with gaps, no fan assumed. */
  airReach: 'open-rack',
  /** Air for which hours are reckoned where no room of the site can take anything; nothing is planned there then. */
  nominalAir: { airTempC: 20, relativeHumidityPct: 60 },
} as const;

/** A size class that the climate library does not know is reckoned as the middle-sized cloth. */
const STAND_IN: StandardItemKind = 'garment';

/** The goods that the air must be able to dry before anything may be hung in it: one of cloth, one of paper. */
const TEST_GOODS: readonly StandardItemKind[] = ['garment', 'a4-sheet'];

/** The standard thing of a size class. */
function standardOf(sizeClass: string): StandardItem {
  return standardItem(STANDARD_ITEM_KINDS.find((kind) => kind === sizeClass) ?? STAND_IN);
}

/**
 * Expected drying of a thing of this size class in this air; null when the air is too damp, or outside what the climate
 * library answers for, such as below 1 C.
 */
export function dryingOutlook(sizeClass: string, blotted: boolean, air: AirNow, values: CalibrationValues = DEFAULT_CALIBRATION): DryingOutlook | null {
  try {
    return outlookOf(standardOf(sizeClass), blotted, air, values);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** True when cloth and paper come to a safe state in this air. */
export function canDryIn(air: AirNow, values: CalibrationValues = DEFAULT_CALIBRATION): boolean {
  return TEST_GOODS.every((kind) => dryingOutlook(kind, true, air, values) !== null);
}

function outlookOf(standard: StandardItem, blotted: boolean, air: AirNow, values: CalibrationValues): DryingOutlook | null {
  const startX = startingX(standard, blotted, values);
  const targetX = dryTargetX(standard.material, values);
  const input = {
    airTempC: air.airTempC, relativeHumidityPct: air.relativeHumidityPct, dryMassKg: standard.dryMassKg,
    exposedAreaM2: standardExposedAreaM2(standard.kind, undefined, values), material: standard.material, airReach: DRYING_CALIBRATION.airReach,
  } as const;
  const modelHours = dryingTimeH(dryingLaw(input, values), startX, targetX);
  if (modelHours === null) return null;
  const forecast = dryingForecast({ ...input, build: standard.build, startX, targetX }, values);
  const closed = standard.build === 'closed';
  const hours = standard.build === 'thick' ? modelHours * DRYING_CALIBRATION.thickFactor : modelHours;
  return {
    planHours: Math.min(DRYING_CALIBRATION.longestHours, Math.max(DRYING_CALIBRATION.shortestHours, hours)),
    earliestH: closed ? null : forecast.earliestH,
    latestH: closed ? null : forecast.latestH,
    waterX: Math.max(0, startX - targetX),
  };
}

/**
 * Water in the thing when it is hung. Paper, prints and books: the 80 % of their own mass that the US National Archives
 * give as the average of older books (read through the climate library); lending it to sheets and prints is ours.
 */
function startingX(standard: StandardItem, blotted: boolean, values: CalibrationValues): number {
  if (standard.material === 'paper') return BOOK_UPTAKE['pre-1840'].value;
  return moistureAtStageX({ stage: blotted ? 'blotted' : 'drained', padded: standard.padded }, values);
}

/** Outlooks of one planning, each worked out once: thousands of things share a few sizes and rooms. */
export class DryingOutlooks {
  private readonly known = new Map<string, DryingOutlook | null>();

  constructor(private readonly values: CalibrationValues = DEFAULT_CALIBRATION) {}

  of(sizeClass: string, blotted: boolean, air: AirNow): DryingOutlook | null {
    const key = `${air.airTempC}/${air.relativeHumidityPct}/${blotted}/${sizeClass}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const made = dryingOutlook(sizeClass, blotted, air, this.values);
    this.known.set(key, made);
    return made;
  }
}
