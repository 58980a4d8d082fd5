/**
 * A stretch of a drying room without argument checks: one step of `room-step.core.ts`, or several short ones where the air
 * moves so fast that the goods would notice.
 *
 * Why: a step lets the goods dry in the air of its END. Where a machine dries a small room, or wet goods dampen it, within
 * minutes, that air is not what they hung in. What a group would lose in the air of the start and in that of the end lie on
 * either side of the truth while the humidity goes one way, so half of their difference bounds about what the step is off.
 * Own code over common practice (error per unit of step, as in adaptive integrators); the bound itself is our own choice.
 */
import type { CalibrationValues } from './calibration.js';
import { wetFace } from './evaporation.js';
import { balancedStep, groupStep, measuredStep, moistureOf, type GroupStep, type StepAir, type StepGroup, type StepOutcome } from './room-step.core.js';
import { roomHumidityPct } from './room.js';

/** The air at the end of a stretch, where the water went in it, and what became of each group. */
export interface Stretch extends StepOutcome {
  goods: GroupStep[];
}

/**
 * How far the moisture X of any group may drift off in an hour, kg/kg: 2e-4 in five minutes and 6e-4 in a quarter hour, so that a
 * step of either length and its two halves agree to better than 1e-3. Own choice; nobody weighs a thing finer than that.
 */
const X_ERROR_MOST_PER_H = 2.4e-3;
/** A step is shortened so that it should come out at this share of what is allowed. */
const AIM = 0.8;
/** No step is shorter than this share of its stretch: cost stays bounded, and what is left is far below what a machine's label is sure of. */
const SHORTEST_SHARE = 1 / 64;

/** Room and goods after `hours` when nobody measures the air. */
export function balancedStretch(air: StepAir, groups: readonly StepGroup[], x0: readonly number[], w0: number, hours: number, values: CalibrationValues): Stretch {
  if (!(hours > 0)) return withGoods(air, groups, x0, balancedStep(air, groups, x0, w0, hours), hours, values);
  const shortest = SHORTEST_SHARE * hours;
  let start: Start = { x: x0, w: w0, rh: roomHumidityPct(air.room, w0), fluxKgPerM2H: wetFace(air.room.t, w0, air.room.pressure, air.film).fluxKgPerM2H };
  let done: Stretch | null = null;
  let doneH = 0;
  let wish = hours;
  for (;;) {
    // A remainder too short to be a step of its own goes with the last.
    const last = doneH + wish > hours - shortest / 2;
    const dt = last ? hours - doneH : wish;
    const step = balancedStep(air, groups, start.x, start.w, dt);
    // Of what is allowed. Error goes as the square of a short step and what is allowed as the step, so their share goes as the step.
    const share = errorX(groups, start, step, dt) / (X_ERROR_MOST_PER_H * dt);
    if (share > 1 && dt > 1.6 * shortest) {
      // What would be left must be a step of its own, or the same step would be tried for ever.
      const left = hours - doneH;
      wish = Math.max(shortest, Math.min(0.7, AIM / share) * dt);
      if (left - wish < shortest / 2) wish = left / 2;
      continue;
    }
    const part = withGoods(air, groups, start.x, step, dt, values);
    done = done === null ? part : joined(done, doneH, part);
    if (last) return done;
    doneH += dt;
    start = step;
    // A number that is none (of goods that are none) must not keep the room here for ever.
    wish = Math.max(shortest, (Math.min(4, AIM / share) || 4) * dt);
  }
}

/** Goods after `hours` in air that was measured: it stays as it is, so one step is exact. */
export function measuredStretch(air: StepAir, groups: readonly StepGroup[], x0: readonly number[], w: number, hours: number, values: CalibrationValues): Stretch {
  return withGoods(air, groups, x0, measuredStep(air, groups, x0, w, hours), hours, values);
}

type Start = Pick<StepOutcome, 'w' | 'rh' | 'fluxKgPerM2H'> & { x: readonly number[] };

/** About how far a step is off in the moisture of the group that it is worst for. */
function errorX(groups: readonly StepGroup[], start: Start, end: StepOutcome, dt: number): number {
  let worst = 0;
  for (let i = 0; i < groups.length; i += 1) {
    worst = Math.max(worst, Math.abs(moistureOf(groups[i]!, start.x[i]!, start.fluxKgPerM2H, start.rh, dt) - end.x[i]!));
  }
  return worst / 2;
}

function withGoods(air: StepAir, groups: readonly StepGroup[], x0: readonly number[], step: StepOutcome, dt: number, values: CalibrationValues): Stretch {
  return Object.assign(step, { goods: groups.map((group, i) => groupStep(air, group, x0[i]!, step, step.x[i]!, dt, values)) });
}

/** One stretch of two that follow each other; the second begins `doneH` hours into it. */
function joined(first: Stretch, doneH: number, second: Stretch): Stretch {
  return {
    ...second,
    evaporated: first.evaporated + second.evaporated,
    outdoorAir: first.outdoorAir + second.outdoorAir,
    removed: first.removed + second.removed,
    condensed: first.condensed + second.condensed,
    imbalance: first.imbalance + second.imbalance,
    goods: second.goods.map(({ doseGained, dryAfterH }, i) => {
      const before = first.goods[i]!;
      return { doseGained: before.doseGained + doseGained, dryAfterH: before.dryAfterH ?? (dryAfterH === null ? null : doneH + dryAfterH) };
    }),
  };
}
