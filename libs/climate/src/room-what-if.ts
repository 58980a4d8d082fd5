/**
 * What one more machine, a fan, open or closed windows, or fewer things would change in a room, ranked.
 *
 * Published: nothing here. Our calibration: what is called worth while (`worthwhileSaving`), and the ranking: limits kept
 * first, then hours (above the cap, humidity). Windows are never recommended unless outdoor air is drier by the margin.
 */
import type { Advice } from './advice.js';
import { ClimateRangeError, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import type { Dehumidifier } from './dehumidifier.js';
import { AIR_SPEED_RULE } from './evaporation.js';
import { itemsAcceptable, type AcceptanceInput } from './room-acceptance.js';
import { roomOutlook, type OutlookInput, type RoomOutlook } from './room-outlook.js';
import { ACH_RULE, ventilationAdvice } from './room.js';
import type { AcceptanceLimit } from './room-trial.js';

/** One thing that could be done. `take-off` names the group by its place in the list of goods. */
export type RoomChange =
  | { kind: 'add-dehumidifier'; machine: Dehumidifier }
  | { kind: 'fan'; airSpeedMPerS: number; fans?: number }
  | { kind: 'open-windows'; airChangesPerH: number }
  | { kind: 'close-windows'; airChangesPerH: number }
  | { kind: 'take-off'; group: number; count: number };

/** Things done together, under a name of the caller's. */
export interface WhatIf {
  id: string;
  changes: readonly RoomChange[];
}

export interface WhatIfInput extends OutlookInput {
  whatIfs: readonly WhatIf[];
  /** The thing whose acceptable number is asked for besides; absent: not asked. */
  item?: AcceptanceInput['item'];
}

export const WHAT_IF_CODES = ['worth-while', 'saves-little', 'fan-without-removal', 'windows-not-drier', 'needs-heat', 'still-over-cap', 'brings-below-cap'] as const;
export type WhatIfCode = (typeof WHAT_IF_CODES)[number];

/** The room with something changed; `id` null is the room as it is. */
export interface WhatIfOutcome {
  id: string | null;
  steadyRelativeHumidityPct: number;
  peakRelativeHumidityPct: number;
  allDryAtH: number | null;
  /** Against the room as it is; `null` when either never gets dry within the time. */
  hoursSaved: number | null;
  /** Most dose that any group gains. */
  doseGained: number;
  broken: RoomOutlook['broken'];
  /** How many more of the item fit, and what then binds; `null` when not asked. */
  acceptable: { items: number; limitedBy: AcceptanceLimit } | null;
  electricKw: number;
  heatToHoldKw: number;
  /** Worth doing by the calibration's measure, and nothing speaks against it. */
  recommended: boolean;
  advice: readonly Advice<WhatIfCode>[];
}

/** Extra heat that is worth a word, kW: about one room heater (own convention). */
const HEAT_WORTH_SAYING_KW = 1;

/** The room as it is, and each change, best first. @throws ClimateRangeError */
export function roomWhatIf(input: WhatIfInput, values: CalibrationValues = DEFAULT_CALIBRATION): { asItIs: WhatIfOutcome; outcomes: readonly WhatIfOutcome[] } {
  requireNumber('whatIfs', input.whatIfs.length, { min: 0, max: 20, unit: 'changes', hint: 'Ask for fewer changes at a time.' });
  const base = roomOutlook(input, values);
  const asItIs = outcomeOf(null, input, base, base, values);
  const outcomes = input.whatIfs.map(({ id, changes }) => {
    const changed = changes.reduce(changedBy, input);
    const outlook = roomOutlook(changed, values);
    const plain = outcomeOf(id, changed, outlook, base, values);
    return judged(plain, changes, { input, base: asItIs, baseOutlook: base }, values);
  });
  return { asItIs, outcomes: [...outcomes].sort(better) };
}

function changedBy(input: WhatIfInput, change: RoomChange): WhatIfInput {
  const room = { ...input.room };
  switch (change.kind) {
    case 'add-dehumidifier':
      return { ...input, room: { ...room, dehumidifiers: [...room.dehumidifiers, change.machine] } };
    case 'fan': {
      const airSpeedMPerS = requireNumber('airSpeedMPerS', change.airSpeedMPerS, AIR_SPEED_RULE);
      const spread = <G extends { arrangementFactor?: number }>({ arrangementFactor: _fitted, ...group }: G) => ({ ...group, airReach: 'fan-across' as const });
      return { ...input, room: { ...room, airSpeedMPerS }, goods: input.goods.map(spread), fans: (input.fans ?? 0) + (change.fans ?? 1), ...(input.item === undefined ? {} : { item: spread(input.item) }) };
    }
    case 'open-windows':
    case 'close-windows':
      return { ...input, room: { ...room, airChangesPerH: requireNumber('airChangesPerH', change.airChangesPerH, ACH_RULE) } };
    case 'take-off': {
      const group = input.goods[change.group];
      if (group === undefined) throw new ClimateRangeError(`group is ${change.group}; the list has ${input.goods.length} groups, counted from 0.`, 'group');
      const count = group.count - requireNumber('count', change.count, { min: 0, max: group.count, unit: 'items', hint: `The group has ${group.count}.` });
      return { ...input, goods: input.goods.map((one, i) => (i === change.group ? { ...one, count } : one)) };
    }
    default:
      throw new ClimateRangeError(`kind of a change is ${String((change as { kind: unknown }).kind)}; see the list of room changes.`, 'kind');
  }
}

function outcomeOf(id: string | null, input: WhatIfInput, outlook: RoomOutlook, base: RoomOutlook, values: CalibrationValues): WhatIfOutcome {
  const acceptance = input.item === undefined ? null : itemsAcceptable({ room: input.room, item: input.item, existing: input.goods, withinH: input.withinH, capPct: input.capPct, stepH: input.stepH, promise: input.promise ?? false }, values);
  return {
    id,
    steadyRelativeHumidityPct: outlook.steady.relativeHumidityPct,
    peakRelativeHumidityPct: outlook.peakRelativeHumidityPct,
    allDryAtH: outlook.allDryAtH,
    hoursSaved: outlook.allDryAtH === null || base.allDryAtH === null ? null : base.allDryAtH - outlook.allDryAtH,
    doseGained: Math.max(0, ...outlook.goods.map((group) => group.doseGained)),
    broken: outlook.broken,
    acceptable: acceptance === null ? null : { items: acceptance.items, limitedBy: acceptance.limitedBy },
    electricKw: outlook.power.totalKw,
    heatToHoldKw: outlook.heatToHoldKw,
    recommended: false,
    advice: [],
  };
}

function judged(outcome: WhatIfOutcome, changes: readonly RoomChange[], before: { input: WhatIfInput; base: WhatIfOutcome; baseOutlook: RoomOutlook }, values: CalibrationValues): WhatIfOutcome {
  const { input, base } = before;
  const capPct = input.capPct ?? values.roomCapPct;
  const over = outcome.peakRelativeHumidityPct > capPct;
  const wasOver = base.peakRelativeHumidityPct > capPct;
  const share = base.allDryAtH === null ? (outcome.allDryAtH === null ? 0 : 1) : (outcome.hoursSaved ?? 0) / Math.max(1e-9, base.allDryAtH);
  const advice: Advice<WhatIfCode>[] = [];
  const add = (code: WhatIfCode, numbers: Advice['values'], text: string): void => void advice.push({ code, values: numbers, text });
  const kinds = new Set(changes.map(({ kind }) => kind));
  const numbers = { peakPct: outcome.peakRelativeHumidityPct, capPct, hoursSaved: outcome.hoursSaved ?? 0 };
  const fanAlone = kinds.has('fan') && !kinds.has('add-dehumidifier') && !kinds.has('take-off') && over;
  const windowsWrong = kinds.has('open-windows') && !outdoorIsDrier(before, values);
  const worth = share >= values.worthwhileSaving || (wasOver && !over);
  if (fanAlone) add('fan-without-removal', numbers, `A fan alone lifts the room to about ${outcome.peakRelativeHumidityPct.toFixed(0)} %${outcome.hoursSaved === null ? '' : ` and saves about ${Math.max(0, outcome.hoursSaved).toFixed(0)} h`}: the air can take no more water than the machines take out. Add dehumidification first.`);
  else if (over) add('still-over-cap', numbers, `The air would still rise above its cap, to about ${outcome.peakRelativeHumidityPct.toFixed(0)} %.`);
  else if (wasOver) add('brings-below-cap', numbers, `It brings the room below its cap, to at most about ${outcome.peakRelativeHumidityPct.toFixed(0)} %.`);
  if (windowsWrong) add('windows-not-drier', {}, 'Outdoor air is not drier by enough: opening windows would not dry the room. Keep them closed.');
  const moreHeatKw = outcome.heatToHoldKw - base.heatToHoldKw;
  if (moreHeatKw > HEAT_WORTH_SAYING_KW) add('needs-heat', { moreHeatKw }, `Holding the temperature would take about ${moreHeatKw.toFixed(1)} kW more heat; without it the room cools and dries more slowly than said here.`);
  const recommended = worth && !fanAlone && !windowsWrong && (!over || outcome.peakRelativeHumidityPct < base.peakRelativeHumidityPct);
  if (recommended) add('worth-while', numbers, 'Worth while.');
  else if (!worth) add('saves-little', numbers, 'It changes little.');
  return { ...outcome, recommended, advice };
}

function outdoorIsDrier({ input, baseOutlook }: { input: WhatIfInput; baseOutlook: RoomOutlook }, values: CalibrationValues): boolean {
  const { room } = input;
  const indoor = { airTempC: room.airTempC, relativeHumidityPct: baseOutlook.steady.relativeHumidityPct, ...(room.pressurePa === undefined ? {} : { pressurePa: room.pressurePa }) };
  return ventilationAdvice(indoor, { airTempC: room.outdoorTempC, relativeHumidityPct: room.outdoorRelativeHumidityPct }, values).advice === 'ventilate';
}

/** Recommended first, then limits kept, then hours, then the caller's order; above the cap humidity goes before hours. */
function better(a: WhatIfOutcome, b: WhatIfOutcome): number {
  const hours = (one: WhatIfOutcome): number => one.allDryAtH ?? Number.MAX_VALUE;
  const [overA, overB] = [a, b].map(({ broken }) => broken === 'humidity-cap');
  return Number(b.recommended) - Number(a.recommended)
    || Number(a.broken !== null) - Number(b.broken !== null)
    || (overA && overB ? a.peakRelativeHumidityPct - b.peakRelativeHumidityPct : hours(a) - hours(b));
}
