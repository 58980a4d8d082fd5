/**
 * Hours and water load of things on a drying place, for the planner and the drying list. The physics is that of the
 * climate library; the rest is our own calibration (`PLANNING_CALIBRATION`) and no published fact.
 */
import {
  arrangementFactor, BOOK_UPTAKE, dampMoistureX, DEFAULT_CALIBRATION, dryTargetX, dryingForecast, dryingLaw, dryingTimeH, exposedAreaM2, moistureAtStageX, standardExposedAreaM2,
  type CalibrationValues, type DryingInput, type DryingLaw, type Material, type StandardItem, type StandardItemKind,
} from '#climate';
import type { FittedSpeed } from '../climate/room/fits.js';
import { placementOn, standardOf } from '../climate/room/goods.js';
import { DEFAULT_PLANNING_VALUES, type PlanningValues } from './planning-calibration.js';

/** Air of a room as measured. */
export interface AirNow {
  airTempC: number;
  relativeHumidityPct: number;
}

/** The same with what weighings have told of the speed of drying there, and how its places let things hang; nothing told when left out. */
export interface AirToDryIn extends AirNow {
  speeds?: readonly FittedSpeed[];
  arrangements?: readonly Arrangement[];
}

/** A thing to dry, as far as it is known. */
export interface ThingToDry {
  sizeClass: string;
  /** Blotted before it is hung. */
  blotted: boolean;
  /** What it is made of; that of its size class when left out. */
  material?: Material;
  /** Found damp, or dry by touch, and not wetted since. */
  damp?: boolean;
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
  /** The way it leaves, by the thin-goods model: from the water at hanging to what counts as dry. */
  startX: number;
  targetX: number;
  law: DryingLaw;
}

/** Things on racks, screens and tables lie in one layer with gaps, no fan assumed. Own choice. */
const AIR_REACH = 'open-rack';

type Arrangement = FittedSpeed['arrangement'];

/** The goods that the air must be able to dry before anything may be hung in it: one of cloth, one of paper. */
const TEST_GOODS: readonly StandardItemKind[] = ['garment', 'a4-sheet'];

/**
 * Expected drying of a thing in this air; null when the air is too damp, or outside what the climate
 * library answers for, such as below 1 C.
 */
export function dryingOutlook(thing: ThingToDry, air: AirToDryIn, values: CalibrationValues = DEFAULT_CALIBRATION, planning: PlanningValues = DEFAULT_PLANNING_VALUES): DryingOutlook | null {
  try {
    return outlookOf(thing, air, values, planning);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** True when cloth and paper come to a safe state in this air. */
export function canDryIn(air: AirNow, values: CalibrationValues = DEFAULT_CALIBRATION): boolean {
  return TEST_GOODS.every((kind) => dryingOutlook({ sizeClass: kind, blotted: true }, air, values) !== null);
}

function outlookOf(thing: ThingToDry, air: AirToDryIn, values: CalibrationValues, planning: PlanningValues): DryingOutlook | null {
  const standard = standardOf(thing.sizeClass);
  const material = thing.material ?? standard.material;
  const startX = startingX(thing, material, standard, values);
  const targetX = dryTargetX(material, values);
  const input = { airTempC: air.airTempC, relativeHumidityPct: air.relativeHumidityPct, dryMassKg: standard.dryMassKg, material, ...slowestReach(standard, material, air, values) };
  const law = dryingLaw(input, values);
  const modelHours = dryingTimeH(law, startX, targetX);
  if (modelHours === null) return null;
  const forecast = dryingForecast({ ...input, build: standard.build, startX, targetX }, values);
  const closed = standard.build === 'closed';
  const hours = standard.build === 'thick' ? modelHours * planning.thickFactor : modelHours;
  return {
    planHours: Math.min(planning.longestDryingH, Math.max(planning.shortestDryingH, hours)),
    earliestH: closed ? null : forecast.earliestH,
    latestH: closed ? null : forecast.latestH,
    waterX: Math.max(0, startX - targetX),
    startX, targetX, law,
  };
}

/**
 * Area and speed of it where it dries slowest in the room, for nobody has said where it will hang: by the factor that weighings have
 * fitted where there is one for such things, else by the general one.
 */
function slowestReach(standard: StandardItem, material: Material, { speeds = [], arrangements = [] }: AirToDryIn, values: CalibrationValues): Reach {
  const general: Reach = { exposedAreaM2: standardExposedAreaM2(standard.kind, undefined, values), airReach: AIR_REACH };
  const fitted = speeds.filter((speed) => speed.material === material && speed.build === standard.build);
  if (fitted.length === 0) return general;
  const places = arrangements.length > 0 ? arrangements : fitted.map(({ arrangement }) => arrangement);
  const reaches = places.map((arrangement) => {
    const speed = fitted.find((one) => one.arrangement === arrangement);
    return speed === undefined ? general : { exposedAreaM2: exposedAreaM2(standard.faceAreaM2, placementOn(arrangement, standard), values), arrangementFactor: speed.factor, factorBand: { low: speed.low, high: speed.high } };
  });
  return reaches.reduce((slowest, reach) => (paceOf(reach, values) < paceOf(slowest, values) ? reach : slowest));
}

type Reach = Pick<DryingInput, 'exposedAreaM2' | 'airReach' | 'arrangementFactor'> & { factorBand?: { low: number; high: number } };

/** All else being the same, drying goes as area and factor. */
const paceOf = (reach: Reach, values: CalibrationValues): number => reach.exposedAreaM2 * arrangementFactor(reach, values);

/**
 * Water in the thing when it is hung. Paper, prints and books: the 80 % of their own mass that the US National Archives
 * give as the average of older books (read through the climate library); lending it to sheets and prints is ours.
 */
function startingX({ blotted, damp }: ThingToDry, material: Material, { padded }: StandardItem, values: CalibrationValues): number {
  if (damp === true) return dampMoistureX({ material, padded }, values).expectedX;
  if (material === 'paper') return BOOK_UPTAKE['pre-1840'].value;
  return moistureAtStageX({ stage: blotted ? 'blotted' : 'drained', padded }, values);
}

/** Outlooks of one planning, each worked out once: thousands of things share a few sizes and rooms. */
export class DryingOutlooks {
  private readonly known = new Map<AirToDryIn, Map<string, DryingOutlook | null>>();
  /** Air for which hours are reckoned where no room of the site can take anything; nothing is planned there then. */
  readonly nominalAir: AirNow;

  constructor(private readonly values: CalibrationValues = DEFAULT_CALIBRATION, readonly planning: PlanningValues = DEFAULT_PLANNING_VALUES) {
    this.nominalAir = { airTempC: planning.nominalAirTempC, relativeHumidityPct: planning.nominalRelativeHumidityPct };
  }

  /** What a drying counts of which nothing can be told. */
  get longestH(): number {
    return this.planning.longestDryingH;
  }

  of({ sizeClass, blotted, material, damp = false }: ThingToDry, air: AirToDryIn): DryingOutlook | null {
    const inAir = this.known.get(air) ?? new Map<string, DryingOutlook | null>();
    this.known.set(air, inAir);
    const key = `${blotted}/${damp}/${material ?? ''}/${sizeClass}`;
    const known = inAir.get(key);
    if (known !== undefined) return known;
    const made = dryingOutlook({ sizeClass, blotted, damp, ...(material === undefined ? {} : { material }) }, air, this.values, this.planning);
    inAir.set(key, made);
    return made;
  }
}
