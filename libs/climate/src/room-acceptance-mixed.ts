/**
 * Which of many waiting things may be hung now, in the caller's order of importance.
 *
 * Goes down the list: of each kind as many as still let everything dry in time, within its mould clock, with the room below
 * its cap and on the rack that is free. What is refused leaves its place to those after it, for a small thing may fit where a
 * large one does not. Published: nothing here. Our calibration: as in `room-acceptance.ts`.
 */
import { ClimateRangeError, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { AREA_RULE } from './evaporation.js';
import { trialLimits } from './room-acceptance.js';
import { mostThatFit, tryRoom, type AcceptanceLimit, type AcceptedGroup, type Trial } from './room-trial.js';
import type { SimulatedRoom } from './room-simulation.js';
import { dryTargetX } from './water-in-things.js';

/** A kind of thing that waits: `count` of them, each taking `rackM2PerItem` of the free rack. */
export interface WaitingGroup extends AcceptedGroup {
  id: string;
  rackM2PerItem?: number;
}

export interface MixedAcceptanceInput {
  room: SimulatedRoom;
  /** Most important first; at most 200 kinds. */
  waiting: readonly WaitingGroup[];
  existing?: readonly AcceptedGroup[];
  withinH?: number;
  capPct?: number | null;
  /** Free rack, line or table area, m2. Absent: not asked. */
  freeRackM2?: number;
  stepH?: number;
  promise?: boolean;
}

/** What becomes of one kind. */
export interface MixedAcceptanceRow {
  id: string;
  waiting: number;
  accepted: number;
  waterKg: number;
  rackM2: number;
  /** What forbids one more; `null` when all of it is taken. */
  limitedBy: Exclude<AcceptanceLimit, 'items-max'> | null;
  /** When it is dry in the room as it will then be, h (for thick goods the late end of their band); `null` when none is taken. */
  dryAtH: number | null;
}

export interface MixedAcceptance {
  rows: readonly MixedAcceptanceRow[];
  acceptedItems: number;
  waterKg: number;
  /** The limit that stopped the first kind not wholly taken; `null` when everything fits. */
  bindingLimit: MixedAcceptanceRow['limitedBy'];
  /** With everything accepted; without any goods `null`. */
  allDryAtH: number | null;
  peakRelativeHumidityPct: number | null;
  freeRackM2Left: number | null;
}

/** @throws ClimateRangeError for numbers out of range, ids given twice, or a rack area without sizes */
export function mixedAcceptance(input: MixedAcceptanceInput, values: CalibrationValues = DEFAULT_CALIBRATION): MixedAcceptance {
  requireWaiting(input);
  const limits = trialLimits(input, values);
  const existing = input.existing ?? [];
  const taken: WaitingGroup[] = [];
  const limited = new Map<string, NonNullable<MixedAcceptanceRow['limitedBy']>>();
  let last: Trial | null = null;
  let free = input.freeRackM2 ?? Infinity;
  for (const group of input.waiting) {
    const room = placesFor(group, free);
    const most = Math.min(group.count, room);
    const trial = (count: number): Trial => tryRoom(input.room, [...existing, ...taken, { ...group, count }], limits, values, true);
    // All at once first: often everything fits, and one run then tells.
    const whole = most > 0 ? trial(most) : null;
    const fit = whole !== null && whole.broken === null ? { best: { count: most, trial: whole }, refused: null } : mostThatFit(most - 1, trial);
    const count = fit.best?.count ?? 0;
    if (count < group.count) limited.set(group.id, count < most ? (fit.refused ?? whole)!.broken! : 'rack-area');
    if (count === 0) continue;
    taken.push({ ...group, count });
    free -= count * (group.rackM2PerItem ?? 0);
    last = fit.best!.trial;
  }
  return summary(input, taken, limited, last, free, values);
}

function requireWaiting(input: MixedAcceptanceInput): void {
  requireNumber('waiting', input.waiting.length, { min: 0, max: 200, unit: 'kinds', hint: 'Ask for fewer kinds at a time.' });
  const ids = new Set<string>();
  for (const group of input.waiting) {
    if (ids.has(group.id)) throw new ClimateRangeError(`The id ${group.id} is given twice; give each kind an id of its own.`, 'id');
    ids.add(group.id);
    requireNumber('count', group.count, { min: 0, max: 100_000, unit: 'items' });
    if (!Number.isInteger(group.count)) throw new ClimateRangeError('count must be a whole number of items.', 'count');
    if (input.freeRackM2 === undefined) continue;
    requireNumber('freeRackM2', input.freeRackM2, { ...AREA_RULE, exclusiveMin: false });
    if (group.rackM2PerItem === undefined) throw new ClimateRangeError(`Give rackM2PerItem for ${group.id}, because freeRackM2 is given.`, 'rackM2PerItem');
    requireNumber('rackM2PerItem', group.rackM2PerItem, AREA_RULE);
  }
}

/** A hair of tolerance, so that 0.3 m2 holds three things of 0.1 m2. */
function placesFor(group: WaitingGroup, freeM2: number): number {
  return freeM2 === Infinity || group.rackM2PerItem === undefined ? Infinity : Math.floor(freeM2 / group.rackM2PerItem + 1e-9);
}

function summary(input: MixedAcceptanceInput, taken: readonly WaitingGroup[], limited: ReadonlyMap<string, NonNullable<MixedAcceptanceRow['limitedBy']>>, last: Trial | null, free: number, values: CalibrationValues): MixedAcceptance {
  const before = input.existing?.length ?? 0;
  const rows = input.waiting.map((group): MixedAcceptanceRow => {
    const at = taken.findIndex((one) => one.id === group.id);
    const accepted = taken[at]?.count ?? 0;
    const perItemKg = group.dryMassKg * Math.max(0, group.startX - (group.targetX ?? dryTargetX(group.material, values)));
    return {
      id: group.id, waiting: group.count, accepted, waterKg: accepted * perItemKg, rackM2: accepted * (group.rackM2PerItem ?? 0),
      limitedBy: limited.get(group.id) ?? null, dryAtH: at < 0 ? null : (last?.groups[before + at]?.dryAtH ?? null),
    };
  });
  const total = (of: (row: MixedAcceptanceRow) => number): number => rows.reduce((sum, row) => sum + of(row), 0);
  return {
    rows, acceptedItems: total((row) => row.accepted), waterKg: total((row) => row.waterKg),
    bindingLimit: rows.find((row) => row.limitedBy !== null)?.limitedBy ?? null,
    allDryAtH: last?.allDryAtH ?? null, peakRelativeHumidityPct: last?.peakPct ?? null,
    freeRackM2Left: free === Infinity ? null : Math.max(0, free),
  };
}
