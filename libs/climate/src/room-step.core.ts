/**
 * One step of a drying room without argument checks: goods, air, machines and outdoor air in one mass balance.
 *
 * Method, own code over textbook parts: backward Euler in the humidity ratio with the exact drying curve of every group inside
 * the step; the residual falls with the humidity ratio, so one bracketed root settles it and it cannot run away. Where the air
 * moves fast, `room-stretch.core.ts` takes several such steps. The checked surfaces are `room-simulation.ts` (a room as it is)
 * and `room-course.ts` (a room through readings and changes).
 */
import type { CalibrationValues } from './calibration.js';
import { dryingTimeUnchecked, moistureAfterRate } from './drying.js';
import { wetFace } from './evaporation.js';
import type { SorptionProperties } from './materials.js';
import { mouldRateUnchecked } from './mould-clock.js';
import { dryAirKg, roomHumidityPct, type CheckedRoom } from './room.js';
import { bracketedRoot, rootBetween } from './root.js';
import { activity, equilibriumX } from './water-in-things.js';

/** A checked group in working numbers; mass and area are of one item. */
export interface StepGroup {
  count: number;
  mass: number;
  area: number;
  reach: number;
  /** How much faster it takes water up than it gives it off. */
  uptake: number;
  sorption: SorptionProperties;
  target: number;
  mould: number;
}

/** What a room does to its goods during a step. */
export interface StepAir {
  room: CheckedRoom;
  film: number;
  /** Removal of all machines in kg/h at a relative humidity in percent. */
  machines: (relativeHumidityPct: number) => number;
  /** Dry air that stores vapour, kg. */
  airKg: number;
}

/** The air at the end of a step, and where the water went (kg in the step). */
export interface StepOutcome {
  w: number;
  rh: number;
  surfaceC: number;
  fluxKgPerM2H: number;
  /** Moisture X of each group at the end. */
  x: number[];
  evaporated: number;
  outdoorAir: number;
  removed: number;
  condensed: number;
  imbalance: number;
}

/** Dose and dryness of one group over a step. */
export interface GroupStep {
  doseGained: number;
  /** Hours into the step at which the group reached its target; `null` if it did not, or was there before. */
  dryAfterH: number | null;
}

/** Air is never reckoned drier than this. */
export const DRIEST_W = 1e-6;
/** How far the balance of a step may be off, kg; a hall of a thousand groups is reckoned no finer by rounding. */
const STEP_TOLERANCE_KG = 1e-12;

/** The humidity ratio at which a falling balance crosses zero, held between almost dry and saturated. */
export function settle(surplus: (w: number) => number, saturationW: number): number {
  if (surplus(saturationW) >= 0) return saturationW;
  if (surplus(DRIEST_W) <= 0) return DRIEST_W;
  return bracketedRoot(surplus, DRIEST_W, saturationW, 1e-16, 1e-13);
}

/** First look for the root of a step this close to where the air stood, in parts of saturated air; a settled room moves less in a quarter hour. */
const FIRST_LOOK = 1e-3;

/** `settle` for air that stood at `near`: the same root, found with fewer looks because air moves little in most steps. */
function settleNear(surplus: (w: number) => number, saturationW: number, near: number): number {
  let here = { x: Math.min(saturationW, Math.max(DRIEST_W, near)), y: 0 };
  here.y = surplus(here.x);
  const end = here.y > 0 ? saturationW : DRIEST_W;
  for (let look = FIRST_LOOK; here.x !== end; look *= 8) {
    const x = here.y > 0 ? Math.min(end, here.x + look * saturationW) : Math.max(end, here.x - look * saturationW);
    const there = { x, y: surplus(x) };
    if (here.y > 0 !== there.y > 0) return rootBetween(surplus, here, there, 1e-16, STEP_TOLERANCE_KG);
    here = there;
  }
  return end;
}

/** Room and goods after `dt` hours when nobody measures the air: the balance decides it. */
export function balancedStep(air: StepAir, groups: readonly StepGroup[], x0: readonly number[], w0: number, dt: number): StepOutcome {
  const { room, airKg } = air;
  const surplusAt = (w: number): number => {
    const flows = outflows(air, w, dt);
    return evaporatedKg(groups, x0, wetFace(room.t, w, room.pressure, air.film).fluxKgPerM2H, flows.rh, dt) - flows.outdoorAir - flows.removed - airKg * (w - w0);
  };
  const w = settleNear(surplusAt, room.saturationW, w0);
  const { rh, outdoorAir, removed } = outflows(air, w, dt);
  const goods = driedGoods(air, groups, x0, w, rh, dt);
  const surplus = goods.evaporated - outdoorAir - removed - airKg * (w - w0);
  const condensed = w === room.saturationW ? Math.max(0, surplus) : 0;
  // A machine in air that holds nothing more can only take what is there.
  const starved = w === DRIEST_W ? Math.min(0, surplus) : 0;
  return { w, rh, ...goods, outdoorAir, removed: removed + starved, condensed, imbalance: surplus - condensed - starved };
}

/** Goods after `dt` hours in air that was measured; where their water went is not asked. */
export function measuredStep(air: StepAir, groups: readonly StepGroup[], x0: readonly number[], w: number, dt: number): StepOutcome {
  const rh = roomHumidityPct(air.room, w);
  return { w, rh, ...driedGoods(air, groups, x0, w, rh, dt), outdoorAir: 0, removed: 0, condensed: 0, imbalance: 0 };
}

/** What a step did to one group: the dose by the moisture it began with, the wetter and so the cautious end. */
export function groupStep(air: StepAir, group: StepGroup, x0: number, outcome: StepOutcome, x1: number, dt: number, values: CalibrationValues): GroupStep {
  const wet = x0 > group.sorption.criticalX;
  const aw = Math.max(activity(group.sorption, x0), outcome.rh / 100);
  const doseGained = dt * mouldRateUnchecked(wet ? outcome.surfaceC : air.room.t, aw, group.mould, values);
  if (x0 <= group.target || x1 > group.target) return { doseGained, dryAfterH: null };
  const law = { ratePerH: rateOf(group, outcome.fluxKgPerM2H), criticalX: group.sorption.criticalX, equilibriumX: equilibriumX(group.sorption, outcome.rh / 100) };
  return { doseGained, dryAfterH: Math.min(dt, dryingTimeUnchecked(law, x0, group.target) ?? dt) };
}

function outflows(air: StepAir, w: number, dt: number): { rh: number; outdoorAir: number; removed: number } {
  const { room } = air;
  const rh = roomHumidityPct(room, w);
  return { rh, outdoorAir: dryAirKg(room, w) * room.ach * dt * (w - room.outdoorW), removed: air.machines(rh) * dt };
}

function rateOf(group: StepGroup, fluxKgPerM2H: number): number {
  return (group.area * group.reach * fluxKgPerM2H) / group.mass;
}

/** Moisture of a group after `dt` hours in air that stays as it is. */
export function moistureOf(group: StepGroup, x0: number, fluxKgPerM2H: number, rh: number, dt: number): number {
  const rest = equilibriumX(group.sorption, rh / 100);
  // In air that stays as it is, no thing passes the moisture at which it rests: it dries all the while, or takes water up.
  const rate = rateOf(group, fluxKgPerM2H) * (x0 < rest ? group.uptake : 1);
  return moistureAfterRate(rate, group.sorption.criticalX, rest, x0, dt);
}

/** The sum that the root search asks for again and again: no lists are made here. */
function evaporatedKg(groups: readonly StepGroup[], x0: readonly number[], fluxKgPerM2H: number, rh: number, dt: number): number {
  let evaporated = 0;
  for (let i = 0; i < groups.length; i += 1) {
    const group = groups[i]!;
    evaporated += group.count * group.mass * (x0[i]! - moistureOf(group, x0[i]!, fluxKgPerM2H, rh, dt));
  }
  return evaporated;
}

function driedGoods(air: StepAir, groups: readonly StepGroup[], x0: readonly number[], w: number, rh: number, dt: number): Pick<StepOutcome, 'surfaceC' | 'fluxKgPerM2H' | 'x' | 'evaporated'> {
  const face = wetFace(air.room.t, w, air.room.pressure, air.film);
  const x: number[] = [];
  let evaporated = 0;
  for (let i = 0; i < groups.length; i += 1) {
    const group = groups[i]!;
    x.push(moistureOf(group, x0[i]!, face.fluxKgPerM2H, rh, dt));
    evaporated += group.count * group.mass * (x0[i]! - x[i]!);
  }
  return { ...face, x, evaporated };
}
