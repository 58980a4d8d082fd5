/** One step of a room's course: in measured air, by the balance, or standing still in the cold. See `room-course.ts`. */
import type { CalibrationValues } from './calibration.js';
import { removalCurve } from './dehumidifier.js';
import { airSpeed, DRYING_TEMP_RULE, filmCoefficient } from './evaporation.js';
import { relativeHumidityPctFromRatio, saturationRatio } from './moist-air.core.js';
import { mouldRateUnchecked } from './mould-clock.js';
import { checkGroup } from './room-simulation.js';
import type { CourseGroup, CourseStep, CourseWater, RoomForcing } from './room-course.types.js';
import type { GroupStep, StepAir, StepGroup, StepOutcome } from './room-step.core.js';
import { balancedStretch, measuredStretch, type Stretch } from './room-stretch.core.js';
import { checkRoom } from './room.js';
import { activity } from './water-in-things.js';

/** A course being brought forward: the state's numbers, to be changed in place, and what was made ready from them. */
export interface CourseWork {
  atMs: number;
  stepMs: number;
  volumeM3: number;
  pressurePa: number;
  forcing: RoomForcing;
  air: 'measured' | 'simulated';
  readingAtMs: number;
  dryAirKg: number;
  humidityRatio: number;
  groups: CourseGroup[];
  water: CourseWater;
  /** Working numbers, `null` after what they rest on has changed. */
  readyAir: { air: StepAir | 'cold' } | null;
  readyGroups: readonly StepGroup[] | null;
}

const MS_PER_H = 3_600_000;

/** Brings the course to `toMs`, with nothing changing on the way. */
export function courseStep(work: CourseWork, toMs: number, values: CalibrationValues): CourseStep {
  const fromMs = work.atMs;
  const dt = (toMs - fromMs) / MS_PER_H;
  const measured = work.air === 'measured' && fromMs < work.readingAtMs + Math.round(values.readingHoldH * MS_PER_H);
  const groups = (work.readyGroups ??= work.groups.map((group) => checkGroup({ ...group, startX: group.moistureX, startDose: group.dose }, values)));
  const air = (work.readyAir ??= { air: airOf(work, values) }).air;
  const x0 = work.groups.map((group) => group.moistureX);
  const stretch = measured ? measuredStretch : balancedStretch;
  const outcome = air === 'cold' ? standStill(work, groups, x0, dt, values) : stretch(air, groups, x0, work.humidityRatio, dt, values);
  work.groups.forEach((group, i) => {
    const step = outcome.goods[i]!;
    group.moistureX = outcome.x[i]!;
    group.dose += step.doseGained;
    if (step.dryAfterH !== null) group.dryAtMs ??= Math.round(fromMs + step.dryAfterH * MS_PER_H);
  });
  addWater(work.water, outcome, measured);
  work.humidityRatio = outcome.w;
  work.atMs = toMs;
  return {
    fromMs,
    toMs,
    measured,
    airTempC: work.forcing.airTempC,
    humidityRatio: outcome.w,
    relativeHumidityPct: outcome.rh,
    evaporationKgPerH: outcome.evaporated / dt,
    outdoorAirKgPerH: outcome.outdoorAir / dt,
    dehumidifiersKgPerH: outcome.removed / dt,
    condensationKgPerH: outcome.condensed / dt,
  };
}

/** In a room below 1 C goods stand still. */
function airOf(work: CourseWork, values: CalibrationValues): StepAir | 'cold' {
  const { forcing } = work;
  if (forcing.airTempC < DRYING_TEMP_RULE.min) return 'cold';
  const room = checkRoom({ ...forcing, volumeM3: work.volumeM3, pressurePa: work.pressurePa });
  return {
    room,
    film: filmCoefficient(airSpeed(forcing.airSpeedMPerS ?? undefined, values)),
    machines: removalCurve(forcing.dehumidifiers, room.t, false, values),
    airKg: work.dryAirKg,
  };
}

/** In the cold nothing dries; air that was warmer gives up what it can no longer hold. */
function standStill(work: CourseWork, groups: readonly StepGroup[], x0: readonly number[], dt: number, values: CalibrationValues): Stretch {
  const t = work.forcing.airTempC;
  const w = Math.min(work.humidityRatio, saturationRatio(t, work.pressurePa));
  const rh = relativeHumidityPctFromRatio(t, w, work.pressurePa);
  const goods = groups.map((group, i) => coldStep(group, x0[i]!, rh, t, dt, values));
  return { w, rh, surfaceC: t, fluxKgPerM2H: 0, x: [...x0], evaporated: 0, outdoorAir: 0, removed: 0, condensed: work.dryAirKg * (work.humidityRatio - w), imbalance: 0, goods };
}

function coldStep(group: StepGroup, x0: number, rh: number, airTempC: number, dt: number, values: CalibrationValues): GroupStep {
  const aw = Math.max(activity(group.sorption, x0), rh / 100);
  return { doseGained: dt * mouldRateUnchecked(airTempC, aw, group.mould, values), dryAfterH: null };
}

function addWater(water: CourseWater, outcome: StepOutcome, measured: boolean): void {
  water.evaporatedKg += outcome.evaporated;
  water.outdoorAirKg += outcome.outdoorAir;
  water.dehumidifiedKg += outcome.removed;
  water.condensedKg += outcome.condensed;
  if (measured) water.notAttributedKg += outcome.evaporated;
  water.worstImbalanceKg = Math.max(water.worstImbalanceKg, Math.abs(outcome.imbalance));
}
