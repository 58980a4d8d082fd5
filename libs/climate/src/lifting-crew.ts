/**
 * How many people lift a load, and when it takes an aid instead.
 *
 * Published: two people lift 2/3 and three 1/2 of the sum of what each could (UK HSE, Manual handling guidance L23, paragraphs 119-120,
 * as read in a copy), and more than four are unlikely to work together. Ours: putting those shares onto the NIOSH limit of one.
 */
import { requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { LOAD_CONSTANT_KG } from './lifting.js';
import { moistureAtStageX, wetMassKg, type StageInput, type WaterStage } from './water-in-things.js';

/** Capacity of one, two and three people as multiples of one's: two lift 2/3 and three 1/2 of the sum; a fourth adds nothing. */
const TEAM_CAPACITY = [1, 4 / 3, 3 / 2] as const;

/** People who lift a load together, 1 to 3; null when it takes an aid instead of people. @throws ClimateRangeError */
export function peopleForLift(loadKg: number, limitOfOneKg: number): number | null {
  const load = requireNumber('loadKg', loadKg, { min: 0, max: 100_000, unit: 'kg' });
  const limit = requireNumber('limitOfOneKg', limitOfOneKg, { min: 0, max: LOAD_CONSTANT_KG, unit: 'kg' });
  const people = TEAM_CAPACITY.findIndex((capacity) => load <= capacity * limit);
  return people < 0 ? null : people + 1;
}

/** What a team of one, two and three may lift, kg. @throws ClimateRangeError */
export function teamCapacitiesKg(limitOfOneKg: number): [one: number, two: number, three: number] {
  const limit = requireNumber('limitOfOneKg', limitOfOneKg, { min: 0, max: LOAD_CONSTANT_KG, unit: 'kg' });
  const [one, two, three] = TEAM_CAPACITY;
  return [one * limit, two * limit, three * limit];
}

/** A wet thing to be lifted: its dry mass and how far the water is out of it. */
export interface WetBundle extends StageInput {
  dryMassKg: number;
}

/** What the bundle weighs at its stage, and at the stages in which less water is in it; ours throughout, to be refitted from weighings. @throws ClimateRangeError */
export function wetBundleKg(bundle: WetBundle, values: CalibrationValues = DEFAULT_CALIBRATION): { massKg: number; moistureX: number; lighter: { stage: WaterStage; massKg: number }[] } {
  const at = (stage: WaterStage): number => moistureAtStageX({ ...bundle, stage }, values);
  const moistureX = at(bundle.stage);
  const massKg = wetMassKg(bundle.dryMassKg, moistureX);
  // Treasures are never wrung or spun, so only draining and blotting are offered.
  const lighter = (['drained', 'blotted'] as const).map((stage) => ({ stage, massKg: wetMassKg(bundle.dryMassKg, at(stage)) })).filter((each) => each.massKg < massKg);
  return { massKg, moistureX, lighter };
}
