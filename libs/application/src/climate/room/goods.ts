/**
 * A thing on a drying place as the climate library reckons it. Sizes and stages are those of the library's standard things; how a
 * place lets the air reach them is our own calibration, and so is every cautious choice where nobody said what a thing is.
 */
import { MATERIALS, type MaterialClass, type WetState } from '#care';
import { BOOK_UPTAKE, dampMoistureX, exposedAreaM2, moistureAtStageX, STANDARD_ITEM_KINDS, standardItem, type CalibrationValues, type ClockThing, type CourseGoods, type Material, type Placement, type StandardItem } from '#climate';
import type { HangingStay, HungItem } from './inputs.js';

/** A size class that the climate library does not know is reckoned as the middle-sized cloth. */
const STAND_IN = 'garment';
/** Moisture of goods at hanging is held below this, whatever a scale said: the drying model ends there. */
const MOISTURE_MOST_X = 20;
const WETTING: ReadonlySet<string> = new Set(['rinse', 'thaw']);
const SYNTHETIC: ReadonlySet<string> = new Set(['nylon', 'polyester', 'acrylic']);

/** The standard thing of a size class. */
export function standardOf(sizeClass: string): StandardItem {
  return standardItem(STANDARD_ITEM_KINDS.find((kind) => kind === sizeClass) ?? STAND_IN);
}

/** What the thing is made of: its fibre where somebody named it, else what its class says, else that of the standard thing. */
export function materialOf({ materialClass, fibre, sizeClass }: Pick<HungItem, 'materialClass' | 'fibre' | 'sizeClass'>): Material {
  const { family } = MATERIALS[materialClass];
  if (family === 'leather') return 'leather';
  if (family === 'paper' || family === 'book' || family === 'photo' || family === 'film') return 'paper';
  if (family !== 'textile') return standardOf(sizeClass).material;
  if (fibre !== 'unknown') return fibre;
  return BY_CLASS[materialClass] ?? standardOf(sizeClass).material;
}

const BY_CLASS: Partial<Record<MaterialClass, Material>> = { 'textile-silk': 'silk', 'textile-silk-painted-or-weighted': 'silk', 'textile-wool': 'wool' };

/** What its mould clock depends on. Only clean man-made fibre from clean water counts as less sensitive. */
export function clockThingOf(item: Pick<HungItem, 'materialClass' | 'fibre' | 'sizeClass' | 'water' | 'soil'>): ClockThing {
  const clean = item.water === 'clean' && item.soil === 'none' && SYNTHETIC.has(item.fibre);
  return { material: materialOf(item), mouldClass: clean ? 'clean-synthetic' : 'sensitive' };
}

/** False where mould cannot live on the material itself. */
export function hasClock({ materialClass }: Pick<HungItem, 'materialClass'>): boolean {
  return MATERIALS[materialClass].feedsMould;
}

/** Dry mass of one piece, kg. The part of a lot may be on record as nothing; then the standard thing stands in. */
export function dryMassKgEach(item: Pick<HungItem, 'dryMassG' | 'count' | 'sizeClass'>): number {
  return item.dryMassG > 0 ? item.dryMassG / 1000 / item.count : standardOf(item.sizeClass).dryMassKg;
}

/** How a thing lies or hangs on a place. Closed books stand wherever they are; thick cloth on a line is draped over it. */
export function placementOn(arrangement: HangingStay['arrangement'], { build, placement, material }: StandardItem): Placement {
  if (build === 'closed' || arrangement === 'rack') return placement;
  if (arrangement === 'screen') return 'flat-on-mesh';
  if (arrangement === 'table') return 'flat-on-board';
  return build === 'thick' && material !== 'paper' ? 'draped-double' : 'hung-single';
}

/** The thing as a group of the room's course. `moistureX` and `dose` are those at hanging, the dry mass of a piece that of its class unless given; `factor` is a fitted one, absent for the general. */
export function goodsOf(item: HungItem, arrangement: HangingStay['arrangement'], at: { moistureX: number; dose: number; dryMassKg?: number }, values: CalibrationValues, factor?: number): CourseGoods {
  const standard = standardOf(item.sizeClass);
  return {
    id: item.id,
    count: item.count,
    dryMassKg: at.dryMassKg ?? dryMassKgEach(item),
    exposedAreaM2: exposedAreaM2(standard.faceAreaM2, placementOn(arrangement, standard), values),
    material: materialOf(item),
    moistureX: at.moistureX,
    dose: at.dose,
    mouldClass: clockThingOf(item).mouldClass,
    build: standard.build,
    // One layer with gaps and no fan that anybody vouches for: the figure that plans take, too.
    ...(factor === undefined ? { airReach: 'open-rack' as const } : { arrangementFactor: factor }),
  };
}

/** On what the water of a thing rests. */
export type MoistureBasis = 'weighed' | 'carried' | 'stage';

/** What a thing may weigh dry, kg a piece, and hold, at an end of its band. */
export interface WaterEnd {
  dryMassKg: number;
  moistureX: number;
}
export type WaterEnds = Record<'slow' | 'fast', WaterEnd>;

/** Water in a thing at a moment, with the ends between which it lies. */
export interface WaterAtHanging {
  moistureX: number;
  ends: WaterEnds;
  basis: MoistureBasis;
}

/** Water in a thing when it is hung, and on what that rests: the last weighing unless it was wetted since, what another room left in it, else its stage. */
export function moistureAtHanging(item: HungItem, atMs: number, values: CalibrationValues): WaterAtHanging {
  const wettedMs = Math.max(-Infinity, ...item.wetSteps.filter(({ step, atMs: end }) => WETTING.has(step) && end <= atMs).map(({ atMs: end }) => end));
  const weighed = item.weighings.findLast((weighing) => weighing.atMs <= atMs && weighing.atMs > wettedMs);
  const left = item.left.findLast((leaving) => leaving.atMs <= atMs && leaving.atMs > wettedMs);
  if (left !== undefined && (weighed === undefined || left.atMs >= weighed.atMs)) return { moistureX: left.moistureX, ends: endsAbout(item, left.mostX ?? left.moistureX, left.leastX ?? left.moistureX, values), basis: 'carried' };
  if (weighed !== undefined) return { ...weighedWater(item, weighed.massKg, values), basis: 'weighed' };
  const { expectedX, mostX } = stageX(item, atMs, wettedMs, values);
  return { moistureX: expectedX, ends: endsAbout(item, mostX ?? expectedX * (1 + values.bandWaterError), expectedX * (1 - values.bandWaterError), values), basis: 'stage' };
}

/** Nobody states what a thing weighs dry, so it may be off from its class. The heavier one holds more water at the same moisture. */
function endsAbout(item: HungItem, mostX: number, leastX: number, { bandDryMassError }: CalibrationValues): WaterEnds {
  const massKg = dryMassKgEach(item);
  return { slow: { dryMassKg: massKg * (1 + bandDryMassError), moistureX: Math.min(MOISTURE_MOST_X, mostX) }, fast: { dryMassKg: massKg * (1 - bandDryMassError), moistureX: leastX } };
}

/** What a weighing shows, kg water per kg dry: the lighter the thing is dry, the more of its weight is water. */
export function weighedWater(item: HungItem, massKg: number, { bandDryMassError }: CalibrationValues): Pick<WaterAtHanging, 'moistureX' | 'ends'> {
  const end = (share: number): WaterEnd => ({ dryMassKg: dryMassKgEach(item) * share, moistureX: weighedX(item, massKg, share) });
  return { moistureX: weighedX(item, massKg), ends: { slow: end(1 - bandDryMassError), fast: end(1 + bandDryMassError) } };
}

/** A thing lighter than its dry mass is dry. `share`: of the dry mass of its class. */
export function weighedX(item: HungItem, massKg: number, share = 1): number {
  return Math.min(MOISTURE_MOST_X, Math.max(0, massKg / (dryMassKgEach(item) * share * item.count) - 1));
}

/** What counts as damp: by touch nobody tells dry from nearly dry. */
const DAMP: ReadonlySet<WetState> = new Set(['damp', 'dry']);

/**
 * Damp if the last that looked called it so and nothing has wetted it since; blotted if it was since it was last wetted, else drained. Paper, prints and books: the 80 % of their own mass that the US
 * National Archives give as the average of older books; lending it to sheets and prints is ours.
 */
function stageX(item: HungItem, atMs: number, wettedMs: number, values: CalibrationValues): { expectedX: number; mostX?: number } {
  const { padded } = standardOf(item.sizeClass);
  const material = materialOf(item);
  const look = item.looks.findLast((one) => one.atMs <= atMs);
  if (look !== undefined && look.atMs > wettedMs && DAMP.has(look.wetState)) return dampMoistureX({ material, padded }, values);
  if (material === 'paper') return { expectedX: BOOK_UPTAKE['pre-1840'].value };
  const blotted = item.wetSteps.some(({ step, atMs: end }) => step === 'blot' && end <= atMs && end >= wettedMs);
  return { expectedX: moistureAtStageX({ stage: blotted ? 'blotted' : 'drained', padded }, values) };
}
