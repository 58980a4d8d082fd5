/**
 * A drying room and its goods as a coordinator wants to see them: where the humidity goes, when each thing is dry, what it
 * costs in dose, power and heat, and what to be warned of. `room-simulation.ts` does the reckoning.
 */
import type { Advice } from './advice.js';
import { requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { roomPower, type RoomPower } from './room-power.js';
import { CAP_RULE, ventilationAdvice } from './room.js';
import { roomSteadyState, simulateRoom, type SimulatedRoom, type SimulationResult, type SteadyRoom } from './room-simulation.js';
import { tryRoom, type AcceptedGroup } from './room-trial.js';

export interface OutlookInput {
  room: SimulatedRoom;
  goods: readonly AcceptedGroup[];
  /** How far to look, h (72 if absent). */
  withinH?: number;
  /** Room humidity not to be passed, %; the calibration's if absent. */
  capPct?: number;
  /** Fans that run, for the electric load. */
  fans?: number;
  stepH?: number;
  promise?: boolean;
}

export const ROOM_WARNING_CODES = ['over-cap', 'not-dry-in-time', 'never-dry', 'mould-before-dry', 'condensation', 'nothing-leaves', 'thick-goods-band', 'windows-would-help', 'keep-windows-closed', 'machines-frost', 'fan-without-removal'] as const;
export type RoomWarningCode = (typeof ROOM_WARNING_CODES)[number];

/** One group: hours by the model, and the band that is honest. */
export interface GoodsOutlook {
  /** Thin goods only; `null` for others, or when not dry within the time. */
  dryAtH: number | null;
  earliestH: number | null;
  /** Thin goods: by the error of the level, also past the time looked at. Others: `null` when not dry within it. */
  latestH: number | null;
  doseGained: number;
  endDose: number;
}

export interface RoomOutlook {
  /** While everything is wet. */
  steady: SteadyRoom;
  run: SimulationResult;
  goods: readonly GoodsOutlook[];
  /** With thick goods at the late end of their band; `null` when not all within the time. */
  allDryAtH: number | null;
  peakRelativeHumidityPct: number;
  /** `null` when all limits hold; else the one that is broken. */
  broken: 'humidity-cap' | 'mould-clock' | 'time' | null;
  power: RoomPower;
  /** Heat to hold the temperature after the machines' electric power, kW; negative: the room grows warmer. Walls not counted. */
  heatToHoldKw: number;
  warnings: readonly Advice<RoomWarningCode>[];
}

/** @throws ClimateRangeError */
export function roomOutlook(input: OutlookInput, values: CalibrationValues = DEFAULT_CALIBRATION): RoomOutlook {
  const withinH = input.withinH ?? 72;
  const capPct = requireNumber('capPct', input.capPct ?? values.roomCapPct, CAP_RULE);
  const promise = input.promise ?? false;
  const steady = roomSteadyState(input.room, input.goods, { promise }, values);
  const run = simulateRoom(input.room, input.goods, { hours: withinH, stepH: input.stepH, promise }, values);
  const trial = tryRoom(input.room, input.goods, { withinH, capPct, stepH: input.stepH, promise }, values);
  const power = roomPower({ dehumidifiers: input.room.dehumidifiers, airTempC: input.room.airTempC, relativeHumidityPct: steady.relativeHumidityPct, dehumidifiersKgPerH: steady.dehumidifiersKgPerH, fans: input.fans }, values);
  const goods = input.goods.map((group, i): GoodsOutlook => {
    const { dryAtH, doseGained, endDose } = run.groups[i]!;
    const thin = (group.build ?? 'thin') === 'thin';
    const late = thin ? (dryAtH === null ? null : dryAtH / (1 - values.thinErrorFraction)) : trial.groups[i]!.dryAtH;
    const dose = thin ? { doseGained, endDose } : trial.groups[i]!;
    return { dryAtH: thin ? dryAtH : null, earliestH: dryAtH === null ? null : dryAtH * (1 - values.thinErrorFraction), latestH: late, doseGained: dose.doseGained, endDose: dose.endDose };
  });
  const outlook = { steady, run, goods, allDryAtH: trial.allDryAtH, peakRelativeHumidityPct: trial.peakPct, broken: trial.broken, power, heatToHoldKw: steady.heatToHoldKw - power.totalKw };
  return { ...outlook, warnings: warningsOf(input, outlook, { withinH, capPct }, values) };
}

function warningsOf(input: OutlookInput, outlook: Omit<RoomOutlook, 'warnings'>, { withinH, capPct }: { withinH: number; capPct: number }, values: CalibrationValues): Advice<RoomWarningCode>[] {
  const { run, steady, goods, peakRelativeHumidityPct: peakPct } = outlook;
  const warnings: Advice<RoomWarningCode>[] = [];
  const warn = (code: RoomWarningCode, numbers: Advice['values'], text: string): void => void warnings.push({ code, values: numbers, text });
  const wet = input.goods.some((group, i) => group.count > 0 && goods[i]!.earliestH !== 0);
  if (wet && steady.dehumidifiersKgPerH + steady.outdoorAirKgPerH <= 1e-6) warn('nothing-leaves', {}, 'No water leaves this room: neither machines nor outdoor air take any. Hang nothing wet here.');
  if (peakPct > capPct) warn('over-cap', { peakPct, capPct }, `The air rises to about ${peakPct.toFixed(0)} %, above the cap of ${capPct.toFixed(0)} %: everything else in the room is at risk. Hang less, or take more water out of the air.`);
  const saved = peakPct > capPct ? fanSavesH(input, outlook, withinH, values) : null;
  if (saved !== null) warn('fan-without-removal', { peakPct, hoursSaved: saved }, `Moving air lifts the room to about ${peakPct.toFixed(0)} % and saves about ${saved.toFixed(0)} h: the air can take no more water than leaves it. Take more water out first.`);
  const mostDose = Math.max(0, ...goods.map((group) => group.endDose));
  if (mostDose > values.redDose) warn('mould-before-dry', { dose: mostDose }, 'By the rule-of-practice clock mould may come before these goods are dry. Freeze or cool what may be, or give it a better place first.');
  const unfinished = goods.filter(({ latestH }, i) => (latestH === null || latestH > withinH) && input.goods[i]!.count > 0).length;
  if (unfinished > 0) {
    const standing = run.groups.some((group, i) => group.dryAtH === null && Math.abs(group.endX - (run.steps.at(-9)?.moistureX[i] ?? Infinity)) < 1e-4);
    if (standing) warn('never-dry', { unfinished }, 'Some goods would come to rest damp in this air and never dry. Lower the humidity.');
    else warn('not-dry-in-time', { unfinished, withinH }, `Some goods may not be dry within ${withinH.toFixed(0)} h.`);
  }
  if (run.condensedKg > 0.001) warn('condensation', { condensedKg: run.condensedKg }, 'The air reaches saturation: water would settle on cold walls, windows and goods.');
  if (input.goods.some((group) => (group.build ?? 'thin') !== 'thin')) warn('thick-goods-band', {}, 'Thick or closed goods dry from inside: only a band can be given. Weigh them.');
  if (input.room.airTempC < values.frostFadeStartTempC && input.room.dehumidifiers.some(({ kind }) => kind === 'refrigerant')) warn('machines-frost', { airTempC: input.room.airTempC }, 'In a room this cool a refrigerant dehumidifier frosts and takes out far less than its label.');
  warnings.push(...windowAdvice(input, steady, values));
  return warnings;
}

/** Air speed from which somebody is moving the air (own convention), m/s. */
const FAN_FROM_M_PER_S = 0.3;

/** What moving air saves against an open rack in still air, where that is little; `null` where nothing moves it, or it pays. */
function fanSavesH(input: OutlookInput, { run }: Pick<RoomOutlook, 'run'>, withinH: number, values: CalibrationValues): number | null {
  const moved = (input.room.airSpeedMPerS ?? 0) >= FAN_FROM_M_PER_S;
  if (!moved || run.allDryAtH === null) return null;
  const { airSpeedMPerS: _moving, ...still } = input.room;
  const goods = input.goods.map((group) => (group.airReach === 'fan-across' ? { ...group, airReach: 'open-rack' as const } : group));
  const without = simulateRoom(still, goods, { hours: withinH, stepH: input.stepH, promise: input.promise }, values).allDryAtH;
  if (without === null) return null;
  const saved = without - run.allDryAtH;
  return saved < values.worthwhileSaving * without ? Math.max(0, saved) : null;
}

/** Only where it matters which way the windows stand. */
function windowAdvice({ room }: OutlookInput, steady: SteadyRoom, values: CalibrationValues): Advice<RoomWarningCode>[] {
  const indoor = { airTempC: room.airTempC, relativeHumidityPct: steady.relativeHumidityPct, ...(room.pressurePa === undefined ? {} : { pressurePa: room.pressurePa }) };
  const { advice, statement, removalKgPer1000M3 } = ventilationAdvice(indoor, { airTempC: room.outdoorTempC, relativeHumidityPct: room.outdoorRelativeHumidityPct }, values);
  if (advice === 'no-difference') return [];
  return [{ code: advice === 'ventilate' ? 'windows-would-help' : 'keep-windows-closed', values: { removalKgPer1000M3 }, text: statement }];
}
