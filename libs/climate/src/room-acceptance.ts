/**
 * How many like things a room can take now so that all dry in time, none gains a full mould dose and the room stays below its cap.
 *
 * Published: nothing here. Our calibration: the cap, the dose limit and all they rest on. Both limits count: the mould
 * limit alone would allow days of very damp air, which endangers everything else in the room.
 */
import { ClimateRangeError, requireChoice, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { BUILDS, type Build } from './drying.js';
import { AREA_RULE, arrangementFactor } from './evaporation.js';
import { CAP_RULE } from './room.js';
import { SIMULATION_HOURS_MAX, simulateRoom, type SimulatedRoom, type SimulationResult, type WetGroup } from './room-simulation.js';
import { dryTargetX } from './water-in-things.js';

/** Goods with their build, `thin` if absent: thick or closed goods load the room as thin ones do but must be given longer. */
export type AcceptedGroup = WetGroup & { build?: Build };

/** The question: one kind of thing, what hangs already, and the limits. */
export interface AcceptanceInput {
  room: SimulatedRoom;
  /** The thing to add; its `count` is what is asked for. */
  item: Omit<AcceptedGroup, 'count'>;
  /** Goods that hang there already and must come through too. */
  existing?: readonly AcceptedGroup[];
  /** All goods must be dry within this, h (72 if absent). */
  withinH?: number;
  /** Room humidity not to be passed, %; `null` drops this limit (for comparison only), absent takes the calibration's. */
  capPct?: number | null;
  /** Free rack, line or table area and what one thing takes of it, both in m2; give both or neither. */
  freeRackM2?: number;
  rackM2PerItem?: number;
  /** Search no further than this (2000 if absent). */
  itemsMax?: number;
  stepH?: number;
  /** Count machines at most at their rating (default true). */
  promise?: boolean;
}

export type AcceptanceLimit = 'humidity-cap' | 'mould-clock' | 'time' | 'rack-area' | 'items-max';

/** The answer, with the outcome for that number of items. */
export interface Acceptance {
  items: number;
  /** Water that these items give off until dry, kg. */
  waterKg: number;
  /** What forbids one more. */
  limitedBy: AcceptanceLimit;
  /** When the last of all goods is dry, h (for thick goods the late end of their band); `null` when nothing can be accepted. */
  allDryAtH: number | null;
  peakRelativeHumidityPct: number | null;
  statement: string;
}

const BUILD_NAMES = Object.fromEntries(BUILDS.map((build) => [build, build])) as Record<Build, Build>;

const LIMIT_WORDS: Readonly<Record<AcceptanceLimit, string>> = {
  'humidity-cap': 'one more would lift the room above its humidity cap; more dehumidification, not more racks, is what helps',
  'mould-clock': 'one more would let the mould clock run out before all is dry',
  time: 'one more would not be dry in the time allowed',
  'rack-area': 'there is no rack area for one more',
  'items-max': 'the search went no further',
};

/**
 * The largest number of items that the room can accept, by bisection on whole simulations (the outcome only worsens with
 * each item). A plan, not a promise: weigh and re-plan. @throws ClimateRangeError
 */
export function itemsAcceptable(input: AcceptanceInput, values: CalibrationValues = DEFAULT_CALIBRATION): Acceptance {
  const withinH = requireNumber('withinH', input.withinH ?? 72, { min: 0.25, max: SIMULATION_HOURS_MAX, unit: 'h' });
  const cap = input.capPct === null ? Infinity : requireNumber('capPct', input.capPct ?? values.roomCapPct, CAP_RULE);
  const ceiling = itemCeiling(input);
  const existing = input.existing ?? [];
  const trial = (count: number): Trial => {
    const groups: AcceptedGroup[] = [...existing, { ...input.item, count }];
    const run = (goods: readonly WetGroup[]) => simulateRoom(input.room, goods, { hours: withinH, stepH: input.stepH, promise: input.promise ?? true }, values);
    const load = run(groups);
    // Thick goods may give their water off as fast as thin ones or far more slowly: the damper and the later case both count.
    const time = groups.some(isSlow) ? run(groups.map((group) => slowed(group, values))) : load;
    const peak = Math.max(load.peakRelativeHumidityPct, time.peakRelativeHumidityPct);
    return { peak, allDryAtH: time.allDryAtH, broken: brokenLimit(time, peak, cap, values) };
  };
  let best: { count: number; trial: Trial } | null = null;
  let refused: { count: number; trial: Trial } | null = null;
  // Doubling first: most rooms take few items, and large trials are the slow ones.
  for (let count = Math.min(1, ceiling.count); count > 0; count = refused === null ? Math.min(2 * count, ceiling.count) : Math.floor((best!.count + refused.count) / 2)) {
    const tried = { count, trial: trial(count) };
    if (tried.trial.broken === null) best = tried;
    else refused = tried;
    if (best === null || best.count === ceiling.count || (refused !== null && refused.count - best.count <= 1)) break;
  }
  return answer(input, best, refused?.trial.broken ?? ceiling.limit, values);
}

interface Trial {
  peak: number;
  allDryAtH: number | null;
  broken: AcceptanceLimit | null;
}

function isSlow(group: AcceptedGroup): boolean {
  requireChoice('build', group.build ?? 'thin', BUILD_NAMES);
  return group.build === 'thick' || group.build === 'closed';
}

function slowed(group: AcceptedGroup, values: CalibrationValues): WetGroup {
  return isSlow(group) ? { ...group, arrangementFactor: arrangementFactor(group, values) / values.thickSlowdownMax } : group;
}

function brokenLimit(result: SimulationResult, peak: number, cap: number, values: CalibrationValues): AcceptanceLimit | null {
  if (peak > cap) return 'humidity-cap';
  if (result.groups.some((group) => group.endDose > values.redDose)) return 'mould-clock';
  return result.allDryAtH === null ? 'time' : null;
}

function itemCeiling(input: AcceptanceInput): { count: number; limit: AcceptanceLimit } {
  const most = Math.floor(requireNumber('itemsMax', input.itemsMax ?? 2000, { min: 1, max: 100000, unit: 'items' }));
  if ((input.freeRackM2 === undefined) !== (input.rackM2PerItem === undefined)) {
    throw new ClimateRangeError('Give freeRackM2 and rackM2PerItem together, or neither.', 'freeRackM2');
  }
  if (input.freeRackM2 === undefined || input.rackM2PerItem === undefined) return { count: most, limit: 'items-max' };
  const free = requireNumber('freeRackM2', input.freeRackM2, { ...AREA_RULE, exclusiveMin: false });
  // A hair of tolerance, so that 0.3 m2 holds three things of 0.1 m2.
  const places = Math.floor(free / requireNumber('rackM2PerItem', input.rackM2PerItem, AREA_RULE) + 1e-9);
  return places < most ? { count: places, limit: 'rack-area' } : { count: most, limit: 'items-max' };
}

function answer(input: AcceptanceInput, best: { count: number; trial: Trial } | null, limitedBy: AcceptanceLimit, values: CalibrationValues): Acceptance {
  const items = best?.count ?? 0;
  const { item } = input;
  const perItemKg = item.dryMassKg * Math.max(0, item.startX - (item.targetX ?? dryTargetX(item.material, values)));
  return {
    items,
    waterKg: items * perItemKg,
    limitedBy,
    allDryAtH: best?.trial.allDryAtH ?? null,
    peakRelativeHumidityPct: best?.trial.peak ?? null,
    statement: `The room can take ${items} more of these: ${LIMIT_WORDS[limitedBy]}. An estimate from the room as measured; weigh, watch the hygrometer and plan again.`,
  };
}
