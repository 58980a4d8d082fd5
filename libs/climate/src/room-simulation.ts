/**
 * A drying room over hours: wet goods, air, machines and outdoor air in one mass balance.
 *
 * Method: `room-stretch.core.ts`, stretch after stretch in steady forcing.
 * Published: nothing beyond the relations it calls. Our calibration: everything `drying.ts` and `mould-clock.ts` name.
 */
import { requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { removalCurve } from './dehumidifier.js';
import { airSpeed, AREA_RULE, arrangementFactor, filmCoefficient, wetFace, type ReachInput } from './evaporation.js';
import { sorptionOf, type Material, type SorptionProperties } from './materials.js';
import { DRY_AIR_HEAT_J_PER_KG_K, latentHeat } from './moist-air.core.js';
import { mouldFactor, type MouldClass } from './mould-clock.js';
import { RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';
import { checkRoom, dryAirKg, ratioAtHumidity, roomHumidityPct, type RoomInput } from './room.js';
import { DRIEST_W, settle, type StepAir, type StepGroup } from './room-step.core.js';
import { balancedStretch } from './room-stretch.core.js';
import { DRY_MASS_RULE, dryTargetX, MOISTURE_RULE } from './water-in-things.js';

/** A room with its present humidity and air speed over the racks (still air if absent). */
export interface SimulatedRoom extends RoomInput {
  startRelativeHumidityPct: number;
  airSpeedMPerS?: number;
}

/**
 * Like things hung alike. Mass and area are of ONE item, the area counting every breathing face. A run reckons all of them
 * as thin goods: right for the load on the room, too quick for thick or closed goods (`itemsAcceptable` allows for that).
 */
export interface WetGroup extends ReachInput {
  count: number;
  dryMassKg: number;
  exposedAreaM2: number;
  material: Material | SorptionProperties;
  startX: number;
  targetX?: number;
  mouldClass?: MouldClass;
  /** How many times faster it takes water up in damp air than it gives it off; 1 if absent. For the ends of a band: what dries slowly may yet grow damp quickly. */
  uptakeTimes?: number;
  /** Mould dose already gained before hanging. */
  startDose?: number;
}

export interface SimulationOptions {
  /** Longest time to look ahead, h. */
  hours: number;
  /** Step, h (0.01 to 1; 0.25 if absent). */
  stepH?: number;
  /** Count machines at no more than their rating: for anything promised to others. */
  promise?: boolean;
  /** End the run with the step that passes one of these: the answer to a yes or no is then known. */
  giveUpAbove?: { relativeHumidityPct: number; dose: number };
}

/** State at the end of a step. */
export interface SimulationStep {
  atH: number;
  humidityRatio: number;
  relativeHumidityPct: number;
  evaporationKgPerH: number;
  /** Moisture X of each group, in the order given. */
  moistureX: readonly number[];
}

export interface GroupOutcome {
  /** When the group reached its target; `null` if not within the time. */
  dryAtH: number | null;
  endX: number;
  doseGained: number;
  endDose: number;
}

/** A run ends when every group is dry or the time is up; feed `endX`, `endDose` and the last humidity back in to go on after a change. */
export interface SimulationResult {
  steps: readonly SimulationStep[];
  groups: readonly GroupOutcome[];
  allDryAtH: number | null;
  /** Highest humidity at the end of a step; the reading at the start does not count. */
  peakRelativeHumidityPct: number;
  endRelativeHumidityPct: number;
  /** Where the water went, kg. `outdoorAirKg` is negative when outdoor air brought water in. */
  evaporatedKg: number;
  outdoorAirKg: number;
  dehumidifiedKg: number;
  condensedKg: number;
  /** Worst imbalance of a step, kg: a check on the arithmetic. */
  worstImbalanceKg: number;
}

/** What the room settles at while all goods are wet. */
export interface SteadyRoom {
  humidityRatio: number;
  relativeHumidityPct: number;
  evaporationKgPerH: number;
  outdoorAirKgPerH: number;
  dehumidifiersKgPerH: number;
  /** Above zero when the room is saturated and water settles on cold surfaces. */
  condensationKgPerH: number;
  /** Heat to hold the temperature, kW; machines give back latent heat (their electric power not counted). Negative: surplus. */
  heatToHoldKw: number;
}

/** The longest look ahead of a simulation, h. */
export const SIMULATION_HOURS_MAX = 2000;

/**
 * Steady state of a room while every group is still above its critical moisture.
 * @throws ClimateRangeError
 */
export function roomSteadyState(room: Omit<SimulatedRoom, 'startRelativeHumidityPct'>, groups: readonly WetGroup[], options: { promise?: boolean } = {}, values: CalibrationValues = DEFAULT_CALIBRATION): SteadyRoom {
  const checked = checkRoom(room);
  const film = filmCoefficient(airSpeed(room.airSpeedMPerS, values));
  const wetArea = groups.map((group) => checkGroup(group, values)).reduce((sum, group) => sum + group.count * group.area * group.reach, 0);
  const machines = removalCurve(room.dehumidifiers, checked.t, options.promise ?? false, values);
  const at = (w: number) => {
    const evaporation = wetArea * wetFace(checked.t, w, checked.pressure, film).fluxKgPerM2H;
    const outdoorAir = dryAirKg(checked, w) * checked.ach * (w - checked.outdoorW);
    const removed = machines(roomHumidityPct(checked, w));
    return { evaporation, outdoorAir, removed, surplus: evaporation - outdoorAir - removed };
  };
  const w = settle((ratio) => at(ratio).surplus, checked.saturationW);
  const flows = at(w);
  const starved = w === DRIEST_W ? Math.min(0, flows.surplus) : 0;
  const dehumidifiersKgPerH = flows.removed + starved;
  const heatJPerH = (flows.evaporation - dehumidifiersKgPerH) * latentHeat(checked.t)
    + dryAirKg(checked, w) * checked.ach * DRY_AIR_HEAT_J_PER_KG_K * (checked.t - checked.outdoorT);
  return {
    humidityRatio: w,
    relativeHumidityPct: roomHumidityPct(checked, w),
    evaporationKgPerH: flows.evaporation,
    outdoorAirKgPerH: flows.outdoorAir,
    dehumidifiersKgPerH,
    condensationKgPerH: w === checked.saturationW ? Math.max(0, flows.surplus) : 0,
    heatToHoldKw: heatJPerH / 3.6e6,
  };
}

/**
 * Runs a room until all groups are dry or the time is up (an empty room: until the time is up). Outdoor air and machines stay as given; when weather or a machine
 * changes, run again from the end state. @throws ClimateRangeError
 */
export function simulateRoom(room: SimulatedRoom, groups: readonly WetGroup[], options: SimulationOptions, values: CalibrationValues = DEFAULT_CALIBRATION): SimulationResult {
  const horizon = requireNumber('hours', options.hours, { min: 0, max: SIMULATION_HOURS_MAX, unit: 'h' });
  const stepH = requireNumber('stepH', options.stepH ?? 0.25, { min: 0.01, max: 1, unit: 'h' });
  const run = startRun(room, groups, options.promise ?? false, values);
  const unfinished = (): boolean => groups.length === 0 || run.dryAtH.includes(null);
  for (let atH = 0; atH < horizon - 1e-9 && unfinished() && !givenUp(run, groups, options); ) {
    const dt = Math.min(stepH, horizon - atH);
    advance(run, atH, dt, values);
    atH += dt;
  }
  return finishRun(run, groups);
}

function givenUp({ steps, dose }: Run, groups: readonly WetGroup[], { giveUpAbove: most }: SimulationOptions): boolean {
  if (most === undefined || steps.length === 0) return false;
  return steps.at(-1)!.relativeHumidityPct > most.relativeHumidityPct || groups.some((group, i) => (group.startDose ?? 0) + dose[i]! > most.dose);
}

interface Run {
  air: StepAir;
  groups: StepGroup[];
  startPct: number;
  w: number;
  x: number[];
  dose: number[];
  dryAtH: (number | null)[];
  steps: SimulationStep[];
  totals: { evaporated: number; outdoorAir: number; removed: number; condensed: number; worst: number };
}

function startRun(room: SimulatedRoom, groups: readonly WetGroup[], promise: boolean, values: CalibrationValues): Run {
  const checked = checkRoom(room);
  const startPct = requireNumber('startRelativeHumidityPct', room.startRelativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  const w = ratioAtHumidity(checked.t, startPct, checked.pressure);
  const ready = groups.map((group) => checkGroup(group, values));
  return {
    air: {
      room: checked,
      film: filmCoefficient(airSpeed(room.airSpeedMPerS, values)),
      machines: removalCurve(room.dehumidifiers, checked.t, promise, values),
      // Fixed at the start: it changes by below 1 %, and the account stays exact.
      airKg: dryAirKg(checked, w),
    },
    groups: ready,
    startPct,
    w,
    x: groups.map((group) => group.startX),
    dose: groups.map(() => 0),
    dryAtH: ready.map((group, i) => (groups[i]!.startX <= group.target ? 0 : null)),
    steps: [],
    totals: { evaporated: 0, outdoorAir: 0, removed: 0, condensed: 0, worst: 0 },
  };
}

/** Working numbers of a group. @throws ClimateRangeError naming the first number that is out of range */
export function checkGroup(group: WetGroup, values: CalibrationValues): StepGroup {
  const sorption = sorptionOf(group.material, values);
  requireNumber('startX', group.startX, MOISTURE_RULE);
  requireNumber('startDose', group.startDose ?? 0, { min: 0, max: 1e6, unit: '(dose)' });
  return {
    count: requireNumber('count', group.count, { min: 0, max: 1e6, unit: 'items' }),
    mass: requireNumber('dryMassKg', group.dryMassKg, DRY_MASS_RULE),
    area: requireNumber('exposedAreaM2', group.exposedAreaM2, AREA_RULE),
    reach: arrangementFactor(group, values),
    uptake: requireNumber('uptakeTimes', group.uptakeTimes ?? 1, { min: 0.01, max: 100, unit: 'times' }),
    sorption,
    target: requireNumber('targetX', group.targetX ?? dryTargetX(sorption, values), MOISTURE_RULE),
    mould: mouldFactor(group.mouldClass ?? 'sensitive', values),
  };
}

function advance(run: Run, atH: number, dt: number, values: CalibrationValues): void {
  const outcome = balancedStretch(run.air, run.groups, run.x, run.w, dt, values);
  outcome.goods.forEach(({ doseGained, dryAfterH }, i) => {
    run.dose[i]! += doseGained;
    if (dryAfterH !== null) run.dryAtH[i] ??= atH + dryAfterH;
  });
  run.totals.evaporated += outcome.evaporated;
  run.totals.outdoorAir += outcome.outdoorAir;
  run.totals.removed += outcome.removed;
  run.totals.condensed += outcome.condensed;
  run.totals.worst = Math.max(run.totals.worst, Math.abs(outcome.imbalance));
  run.w = outcome.w;
  run.x = outcome.x;
  run.steps.push({ atH: atH + dt, humidityRatio: outcome.w, relativeHumidityPct: outcome.rh, evaporationKgPerH: outcome.evaporated / dt, moistureX: outcome.x });
}

/**
 * One implicit step of any room balance: the humidity ratio W1 for which `gainKg(W1)`, the net water that enters the air
 * during the step and falls with W1, equals the change of what the air holds. For balances other than `simulateRoom`'s.
 */
export function implicitHumidityStep(input: { startHumidityRatio: number; dryAirKg: number; saturationHumidityRatio: number; gainKg: (humidityRatio: number) => number }): number {
  const start = requireNumber('startHumidityRatio', input.startHumidityRatio, { min: 0, max: 1, unit: 'kg/kg' });
  const mass = requireNumber('dryAirKg', input.dryAirKg, { min: 0, exclusiveMin: true, max: 1e7, unit: 'kg' });
  const saturation = requireNumber('saturationHumidityRatio', input.saturationHumidityRatio, { min: DRIEST_W, exclusiveMin: true, max: 1, unit: 'kg/kg' });
  return settle((w) => input.gainKg(w) - mass * (w - start), saturation);
}

function finishRun(run: Run, groups: readonly WetGroup[]): SimulationResult {
  const { totals, steps } = run;
  const dry = run.dryAtH.filter((at): at is number => at !== null);
  return {
    steps,
    groups: groups.map((group, i) => ({ dryAtH: run.dryAtH[i]!, endX: run.x[i]!, doseGained: run.dose[i]!, endDose: (group.startDose ?? 0) + run.dose[i]! })),
    allDryAtH: dry.length === groups.length ? Math.max(0, ...dry) : null,
    peakRelativeHumidityPct: steps.reduce((peak, step) => Math.max(peak, step.relativeHumidityPct), 0),
    endRelativeHumidityPct: steps.at(-1)?.relativeHumidityPct ?? run.startPct,
    evaporatedKg: totals.evaporated,
    outdoorAirKg: totals.outdoorAir,
    dehumidifiedKg: totals.removed,
    condensedKg: totals.condensed,
    worstImbalanceKg: totals.worst,
  };
}
