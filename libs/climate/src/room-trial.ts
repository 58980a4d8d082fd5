/** Would a room of goods come through: the one trial behind every question of how much a room can take. */
import { requireChoice } from './climate-range.error.js';
import type { CalibrationValues } from './calibration.js';
import { BUILDS, type Build } from './drying.js';
import { arrangementFactor } from './evaporation.js';
import { simulateRoom, type SimulatedRoom, type SimulationResult, type WetGroup } from './room-simulation.js';

/** Goods with their build, `thin` if absent: thick or closed goods load the room as thin ones do but must be given longer. */
export type AcceptedGroup = WetGroup & { build?: Build };

export type AcceptanceLimit = 'humidity-cap' | 'mould-clock' | 'time' | 'rack-area' | 'items-max';

/** The limits of a trial. */
export interface TrialLimits {
  withinH: number;
  /** Infinity for none. */
  capPct: number;
  stepH: number | undefined;
  promise: boolean;
}

/** How a trial ended. */
export interface Trial {
  peakPct: number;
  allDryAtH: number | null;
  /** By group, in the order given: when dry (for thick goods the late end of their band), and the dose at the end. */
  groups: readonly { dryAtH: number | null; endDose: number; doseGained: number }[];
  /** `null` when all came through. */
  broken: Extract<AcceptanceLimit, 'humidity-cap' | 'mould-clock' | 'time'> | null;
}

const BUILD_NAMES = Object.fromEntries(BUILDS.map((build) => [build, build])) as Record<Build, Build>;

/**
 * Runs the room with these goods. With `briefly` a run ends where a limit is passed: enough for a yes or no, not for showing.
 * @throws ClimateRangeError
 */
export function tryRoom(room: SimulatedRoom, groups: readonly AcceptedGroup[], limits: TrialLimits, values: CalibrationValues, briefly = false): Trial {
  const giveUpAbove = briefly ? { relativeHumidityPct: limits.capPct, dose: values.redDose } : undefined;
  const run = (goods: readonly WetGroup[]) => simulateRoom(room, goods, { hours: limits.withinH, stepH: limits.stepH, promise: limits.promise, giveUpAbove }, values);
  const load = run(groups);
  // Thick goods may give their water off as fast as thin ones or far more slowly: the damper and the later case both count.
  const time = groups.some(isSlow) && !(briefly && load.peakRelativeHumidityPct > limits.capPct) ? run(groups.map((group) => slowed(group, values))) : load;
  const peakPct = Math.max(load.peakRelativeHumidityPct, time.peakRelativeHumidityPct);
  return { peakPct, allDryAtH: time.allDryAtH, groups: time.groups, broken: brokenLimit(time, peakPct, limits.capPct, values) };
}

function isSlow(group: AcceptedGroup): boolean {
  requireChoice('build', group.build ?? 'thin', BUILD_NAMES);
  return group.build === 'thick' || group.build === 'closed';
}

function slowed(group: AcceptedGroup, values: CalibrationValues): WetGroup {
  return isSlow(group) ? { ...group, arrangementFactor: arrangementFactor(group, values) / values.thickSlowdownMax } : group;
}

function brokenLimit(result: SimulationResult, peakPct: number, capPct: number, values: CalibrationValues): Trial['broken'] {
  if (peakPct > capPct) return 'humidity-cap';
  if (result.groups.some((group) => group.endDose > values.redDose)) return 'mould-clock';
  return result.allDryAtH === null ? 'time' : null;
}

/**
 * The largest count from 0 to `most` whose trial comes through, and the trial of the first that did not. The outcome only
 * worsens with each item, so doubling and then halving finds it; most rooms take few, and large trials are the slow ones.
 */
export function mostThatFit(most: number, trial: (count: number) => Trial): { best: { count: number; trial: Trial } | null; refused: Trial | null } {
  let best: { count: number; trial: Trial } | null = null;
  let refused: { count: number; trial: Trial } | null = null;
  for (let count = Math.min(1, most); count > 0; count = refused === null ? Math.min(2 * count, most) : Math.floor((best!.count + refused.count) / 2)) {
    const tried = { count, trial: trial(count) };
    if (tried.trial.broken === null) best = tried;
    else refused = tried;
    if (best === null || best.count === most || (refused !== null && refused.count - best.count <= 1)) break;
  }
  return { best, refused: refused?.trial ?? null };
}
