import { BOOK_UPTAKE, CALIBRATION, dryTargetX, exposedAreaM2, moistureAtStageX, standardItem, type CourseGoods, type Material, type Placement, type StandardItem } from '#climate';
import { MATERIALS } from '#care';
import { ROOM_TRUTH } from '../calibration.js';
import { Dice } from '../dice.js';
import type { DemoThing } from './types.js';

/** What was last done to a thing with water; `none`: it is as wet as it came. */
export type LastWetting = 'none' | 'rinsed' | 'blotted' | 'thawed';
export type Arrangement = 'rack' | 'line' | 'screen' | 'table';

/** How wet a thing is that nobody rinsed, kg water per kg dry; our guess for what a family calls damp. */
const DAMP_X = 0.6;
/** Paper and what is like it holds less than cloth whatever is done to it. */
const PAPER_FAMILIES: ReadonlySet<string> = new Set(['paper', 'book', 'photo', 'film']);

/** A thing as it truly hangs: what its class says, off by its own share in mass, water and speed. The program knows none of the shares. */
export function trueGoods(seed: number, thing: DemoThing, id: string, at: { arrangement: Arrangement; wetting: LastWetting; count: number }): CourseGoods {
  const dice = Dice.of(seed, 'truth', thing.key);
  const off = ([from, to]: readonly [number, number]) => dice.int(from, to) / 100;
  const standard = standardItem(thing.sizeClass);
  const dryMassKg = standard.dryMassKg * off(ROOM_TRUTH.dryMassPct);
  const moistureX = Math.max(0.05, waterX(thing, standard, at.wetting) * off(ROOM_TRUTH.waterPct));
  const speed = off(ROOM_TRUTH.speedPct) * (standard.build === 'thin' ? 1 : off(standard.build === 'thick' ? ROOM_TRUTH.thickSpeedPct : ROOM_TRUTH.closedSpeedPct));
  return {
    id, count: at.count, dryMassKg, exposedAreaM2: exposedAreaM2(standard.faceAreaM2, placementOf(at.arrangement, standard)), material: materialOf(thing, standard), moistureX, build: standard.build,
    arrangementFactor: CALIBRATION.openRackFactor.value * speed,
  };
}

/** Moisture at which the thing counts as dry. */
export function trueTargetX(goods: CourseGoods): number {
  return goods.targetX ?? dryTargetX(goods.material);
}

function materialOf({ materialClass }: DemoThing, standard: StandardItem): Material {
  const { family } = MATERIALS[materialClass];
  if (family === 'leather') return 'leather';
  if (PAPER_FAMILIES.has(family)) return 'paper';
  if (family !== 'textile') return standard.material;
  return materialClass === 'textile-silk' ? 'silk' : materialClass === 'textile-wool' ? 'wool' : 'cotton';
}

function waterX({ materialClass, wetState }: DemoThing, { padded, material }: StandardItem, wetting: LastWetting): number {
  const paper = PAPER_FAMILIES.has(MATERIALS[materialClass].family) || material === 'paper';
  if (paper) return wetting === 'none' && wetState === 'damp' ? DAMP_X / 2 : BOOK_UPTAKE['pre-1840'].value;
  if (wetting === 'blotted') return moistureAtStageX({ stage: 'blotted', padded });
  // What was dripping at the door has dripped off by the time it is hung.
  return wetting === 'none' && wetState === 'damp' ? DAMP_X : moistureAtStageX({ stage: 'drained', padded });
}

function placementOf(arrangement: Arrangement, { build, placement, material }: StandardItem): Placement {
  if (build === 'closed' || arrangement === 'rack') return placement;
  if (arrangement === 'screen') return 'flat-on-mesh';
  if (arrangement === 'table') return 'flat-on-board';
  return build === 'thick' && material !== 'paper' ? 'draped-double' : 'hung-single';
}
