/**
 * How many like things a room can take now so that all dry in time, none gains a full mould dose and the room stays below its cap.
 *
 * Published: nothing here. Our calibration: the cap, the dose limit and all they rest on. Both limits count: the mould
 * limit alone would allow days of very damp air, which endangers everything else in the room.
 */
import { ClimateRangeError, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { AREA_RULE } from './evaporation.js';
import { CAP_RULE } from './room.js';
import { SIMULATION_HOURS_MAX, type SimulatedRoom } from './room-simulation.js';
import { mostThatFit, tryRoom, type AcceptanceLimit, type AcceptedGroup, type Trial, type TrialLimits } from './room-trial.js';
import { dryTargetX } from './water-in-things.js';

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
  const limits = trialLimits(input, values);
  const ceiling = itemCeiling(input);
  const existing = input.existing ?? [];
  const { best, refused } = mostThatFit(ceiling.count, (count) => tryRoom(input.room, [...existing, { ...input.item, count }], limits, values, true));
  return answer(input, best, refused?.broken ?? ceiling.limit, values);
}

/** Checks the limits of an acceptance question. @throws ClimateRangeError */
export function trialLimits(input: Pick<AcceptanceInput, 'withinH' | 'capPct' | 'stepH' | 'promise'>, values: CalibrationValues): TrialLimits {
  return {
    withinH: requireNumber('withinH', input.withinH ?? 72, { min: 0.25, max: SIMULATION_HOURS_MAX, unit: 'h' }),
    capPct: input.capPct === null ? Infinity : requireNumber('capPct', input.capPct ?? values.roomCapPct, CAP_RULE),
    stepH: input.stepH,
    promise: input.promise ?? true,
  };
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
    peakRelativeHumidityPct: best?.trial.peakPct ?? null,
    statement: `The room can take ${items} more of these: ${LIMIT_WORDS[limitedBy]}. An estimate from the room as measured; weigh, watch the hygrometer and plan again.`,
  };
}
