/** What follows from the observations before any rule is asked: the words the rules are written in. */
import type { CareCalibration } from './calibration.js';
import { DEFAULT_CALIBRATION } from './calibration.js';
import type { Family, MaterialTraits } from './materials.js';
import { MATERIALS } from './materials.js';
import { MATERIAL_CLASSES } from './types.js';
import type { Assessment, ColourTestReading, Hazard, MaterialClass, TriageContext, WaterKind } from './types.js';

const HOUR_MS = 3_600_000;

/** `fast`: all colours hold. `slight`: grade 4-5. `untested`: not all colours proved. `bleeding`: dye moves. */
export type DyeState = 'fast' | 'slight' | 'untested' | 'bleeding';

/** Mould as it must be handled: `unseen` means nobody has looked and the clock has not run out yet. */
export type MouldFact = 'none' | 'unseen' | 'dry' | 'active';

/** Derived facts of one assessment at one moment. */
export interface Facts {
  /** Class whose rules apply; differs from the observed one when a family treasures an everyday thing. */
  handledAs: MaterialClass;
  traits: MaterialTraits;
  family: Family;
  /** Moment of wetting, never later than now; the flood's beginning when nobody knows. */
  wettedAtMs: number;
  hoursSinceWetting: number;
  dry: boolean;
  /** Dried here after a rinse here: the dirt is gone with the water. */
  rinsedAndDriedHere: boolean;
  /** Frozen, or dried without active mould: the damage clocks have stopped. */
  stabilised: boolean;
  /** Contamination now, after worsening with the hours; unknown and sea water count as black. */
  water: 'clean' | 'grey' | 'black';
  waterWorsened: boolean;
  salt: boolean;
  dye: DyeState;
  mould: MouldFact;
  weak: boolean;
  degraded: boolean;
  warmAir: boolean;
  /** Hazards at which work stops and the competent authority is called. */
  stopHazards: Hazard[];
  /** Means something to its family. */
  heirloom: boolean;
  /** Goes back to the household for its own wash or decision; the salvage line is not for it. */
  household: boolean;
  /** Public-health advice lists it for discarding and the family gives it no special weight. */
  discardListed: boolean;
  /** Mud that must be loosened, or nobody has said how much. */
  muddy: boolean;
  /** Something is off or loose, or nobody has looked. */
  loose: boolean;
  /** Mended before, or nobody has looked. */
  mended: boolean;
  /** More than one material. */
  mixed: boolean;
  moreBooksThanAirDries: boolean;
  moreLeatherThanAirDries: boolean;
}

const PASSING: ReadonlySet<ColourTestReading> = new Set(['5', 'no-transfer']);

function hasUntestedColour({ colours, colourTests }: Pick<Assessment, 'colours' | 'colourTests'>): boolean {
  if (colours === undefined) return false;
  const tested = new Set(colourTests.map(({ colour }) => colour.trim().toLowerCase()));
  return colours.some((colour) => !tested.has(colour.trim().toLowerCase()));
}

/** Dye state from tests and sight. No recorded test never counts as proof, whatever the tester ticked. */
export function dyeState(assessment: Pick<Assessment, 'colourTests' | 'allColoursTested' | 'alreadyBled' | 'colours'>, calibration: Pick<CareCalibration, 'gradeFourFive'> = DEFAULT_CALIBRATION): DyeState {
  const readings = assessment.colourTests.map((test) => test.reading);
  if (assessment.alreadyBled === true || readings.some((reading) => !PASSING.has(reading) && (reading !== '4-5' || calibration.gradeFourFive === 'bleeding'))) return 'bleeding';
  if (!assessment.allColoursTested || readings.length === 0 || hasUntestedColour(assessment)) return 'untested';
  return readings.includes('4-5') ? 'slight' : 'fast';
}

/** Water as it counts after `hours`: contamination worsens with time and never improves by waiting. */
export function waterAfterHours(kind: WaterKind, hours: number, calibration: CareCalibration): Facts['water'] {
  if (kind === 'unknown' || kind === 'black' || kind === 'salt') return 'black';
  if (hours >= calibration.waterWorsensHours.greyToBlack) return 'black';
  if (kind === 'grey' || hours >= calibration.waterWorsensHours.cleanToGrey) return 'grey';
  return 'clean';
}

function wettingMoment(assessment: Assessment, context: TriageContext): number {
  const known = assessment.wettedAtMs !== null && Number.isFinite(assessment.wettedAtMs);
  return Math.min(known ? (assessment.wettedAtMs ?? context.floodAtMs) : context.floodAtMs, context.nowMs);
}

function mouldFact(assessment: Assessment, ranOut: boolean): MouldFact {
  switch (assessment.mould) {
    case 'active':
    case 'suspected':
      return 'active';
    case 'dry':
      return 'dry';
    case 'none':
      return 'none';
    default:
      return ranOut ? 'active' : 'unseen';
  }
}

function handledAs(assessment: Assessment): MaterialClass {
  const treasured = assessment.significance === 'treasured' || assessment.significance === 'irreplaceable';
  return assessment.materialClass === 'textile-everyday' && treasured ? 'textile-garment-3d' : assessment.materialClass;
}

/** Things that are a hazard by what they are, whether or not anyone has ticked it. */
const HAZARD_OF_CLASS: Readonly<Partial<Record<MaterialClass, Hazard>>> = {
  'film-nitrate-deteriorated': 'nitrate-film',
  'device-with-battery': 'lithium-cell',
  'taxidermy-or-skin': 'arsenic-era-object',
  herbarium: 'mercury',
};

/** Everything except sharps, which are handled with care rather than handed over. */
export function stopHazards(assessment: Pick<Assessment, 'hazards' | 'materialClass'>): Hazard[] {
  const listed: Hazard[] = assessment.hazards.filter((hazard) => hazard !== 'sharps');
  const byClass = HAZARD_OF_CLASS[assessment.materialClass];
  return byClass === undefined || listed.includes(byClass) ? listed : [...listed, byClass];
}

/** The materials of a thing, once each and in the order of the vocabulary, so that the order of naming decides nothing. */
export function partsOf(assessment: Pick<Assessment, 'materialClass' | 'parts'>): MaterialClass[] {
  if (assessment.parts === undefined || assessment.parts.length === 0) return [assessment.materialClass];
  const named = new Set<MaterialClass>([assessment.materialClass, ...assessment.parts]);
  return MATERIAL_CLASSES.filter((materialClass) => named.has(materialClass));
}

/** Derives the facts of `assessment` (its first-named material, for a mixed object) at `context.nowMs`. Pure; never throws on a well-typed assessment. */
export function deriveFacts(assessment: Assessment, context: TriageContext, calibration: CareCalibration): Facts {
  const handled = handledAs(assessment);
  const traits = MATERIALS[handled];
  const wettedAtMs = wettingMoment(assessment, context);
  const hours = (context.nowMs - wettedAtMs) / HOUR_MS;
  const dry = assessment.wetState === 'dry';
  const water = waterAfterHours(assessment.water, hours, calibration);
  const warmAir = (context.airTempC ?? calibration.defaultAirTempC) >= calibration.warmAirTempC;
  const mouldClock = calibration.clockHours[warmAir ? 'mould-warm-air' : 'mould'];
  const done = new Set(context.doneSteps ?? []);
  const held = done.has('freeze') || done.has('dry');
  const mould = mouldFact(assessment, traits.feedsMould && !dry && !held && hours >= mouldClock.deadline);
  const soil = assessment.soil ?? 'unknown';
  const heirloom = assessment.significance !== 'everyday';
  const discardable = handled === 'textile-stuffed' || traits.family === 'paper' || traits.family === 'book' || handled === 'furniture-upholstered';
  return {
    handledAs: handled,
    traits,
    family: traits.family,
    wettedAtMs,
    hoursSinceWetting: hours,
    dry,
    rinsedAndDriedHere: dry && done.has('rinse') && done.has('dry'),
    stabilised: done.has('freeze') || (done.has('dry') && mould !== 'active'),
    water,
    waterWorsened: waterAfterHours(assessment.water, 0, calibration) !== water,
    salt: assessment.water === 'salt',
    dye: dyeState(assessment, calibration),
    mould,
    weak: assessment.fragility !== 'sound',
    degraded: assessment.fragility === 'very-degraded' || handled === 'textile-very-degraded' || handled === 'textile-archaeological',
    warmAir,
    stopHazards: stopHazards(assessment),
    heirloom,
    household: handled === 'textile-everyday' || (handled === 'textile-stuffed' && !heirloom),
    discardListed: discardable && !heirloom && water === 'black',
    muddy: soil === 'heavy-mud' || soil === 'unknown',
    loose: assessment.detachedParts !== false,
    mended: assessment.oldRepairs !== false,
    mixed: partsOf(assessment).length > 1,
    moreBooksThanAirDries: assessment.count > calibration.booksForAirDryingMax,
    moreLeatherThanAirDries: assessment.count > calibration.leatherBindingsForAirDryingMax,
  };
}
