/** Drying, rooms and acceptance of what is only described; nothing is stored. The network's own calibration counts. */
import {
  AltitudeM, ClimateRangeError, constantRateFluxKgPerM2H, dewPointC, dryingForecast, enthalpyKjPerKg, equilibriumMoistureX, humidityRatio, itemsAcceptable, mixedAcceptance, moistAir, roomOutlook, roomWhatIf, specificVolumeM3PerKg, standardPressurePa, sustainedRemoval, wetBulbC,
  type CalibrationValues, type DryingForecast, type MixedAcceptance, type RoomChange, type RoomOutlook, type SimulatedRoom, type WhatIf, type WhatIfOutcome,
} from '#climate';
import { Problem, type EstimateAcceptance, type EstimateDrying, type EstimatedChange, type EstimateRoom } from '#contracts';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import type { UseCaseCall } from '../call.js';
import { describedGoods, describedMachines, describedRoom, type DescribedGoods } from '../climate/estimates/described-goods.js';
import { usualChanges } from '../climate/estimates/usual-changes.js';
import type { Stores } from '../ports/work.js';

/** A question with the numbers that the network works with; the sums are done after the transaction. */
export interface AirQuestion<Q> {
  question: Q;
  values: CalibrationValues;
  nowMs: number;
}

export async function airEstimateInput<Q>(stores: Stores, call: UseCaseCall, question: Q): Promise<AirQuestion<Q>> {
  return { question, values: await climateCalibrationInForce(stores), nowMs: call.env.nowMs };
}

export interface DryingEstimate {
  air: { wetBulbC: number; dewPointC: number | null; humidityRatio: number; enthalpyKjPerKg: number; volumeM3PerKg: number; pressurePa: number };
  goods: DescribedGoods;
  restX: number;
  fluxKgPerM2H: number;
  rateKgPerH: number;
  forecast: DryingForecast;
}

/** One thing in steady air. @throws Problem validation_failed for numbers that do not go together */
export function dryingEstimate({ question, values }: AirQuestion<EstimateDrying>): DryingEstimate {
  return inRange(() => {
    const { airTempC, relativeHumidityPct, airSpeedMPerS, altitudeM } = question.air;
    const pressurePa = standardPressurePa(AltitudeM(altitudeM));
    const air = moistAir({ airTempC, relativeHumidityPct, pressurePa });
    const { name, kind, material } = question.goods;
    const goods = describedGoods({ ...question.goods, name: name ?? kind ?? material }, 0, values);
    const { group } = goods;
    const wet = { ...air, ...(airSpeedMPerS === null ? {} : { airSpeedMPerS }), arrangementFactor: goods.factor };
    const fluxKgPerM2H = constantRateFluxKgPerM2H(wet, values);
    return {
      air: {
        wetBulbC: wetBulbC(air), dewPointC: relativeHumidityPct < 0.01 ? null : dewPointC(air), humidityRatio: humidityRatio(air),
        enthalpyKjPerKg: enthalpyKjPerKg(air), volumeM3PerKg: specificVolumeM3PerKg(air), pressurePa,
      },
      goods,
      restX: equilibriumMoistureX(group.material, relativeHumidityPct, values),
      fluxKgPerM2H,
      rateKgPerH: fluxKgPerM2H * group.exposedAreaM2,
      forecast: dryingForecast({ ...wet, dryMassKg: group.dryMassKg, exposedAreaM2: group.exposedAreaM2, material: group.material, build: group.build, startX: group.startX, targetX: group.targetX, ...(question.factorBand === null ? {} : { factorBand: question.factorBand }) }, values),
    };
  });
}

export interface RoomEstimate {
  room: SimulatedRoom;
  capPct: number;
  goods: DescribedGoods[];
  outlook: RoomOutlook;
  whatIfs: readonly WhatIfOutcome[];
}

/** A room over the hours to come, and what would change it. @throws Problem validation_failed for changes that name nothing of the room */
export function roomEstimate({ question, values }: AirQuestion<EstimateRoom>): RoomEstimate {
  return inRange(() => {
    const goods = question.goods.map((one, index) => describedGoods(one, index, values));
    const room = describedRoom(question.room);
    const capPct = question.capPct ?? values.roomCapPct;
    const input = { room, goods: goods.map(({ group }) => group), withinH: question.withinH, capPct, fans: question.room.fans };
    const whatIfs = question.whatIfs === null ? usualChanges(room, goods.map(({ group }) => group.count)) : ownChanges(question.whatIfs, goods);
    return { room, capPct, goods, outlook: roomOutlook(input, values), whatIfs: roomWhatIf({ ...input, whatIfs }, values).outcomes };
  });
}

function ownChanges(asked: readonly { name: string; changes: readonly EstimatedChange[] }[], goods: readonly DescribedGoods[]): WhatIf[] {
  return asked.map(({ name, changes }, at) => ({ id: name, changes: changes.flatMap((change, index) => ownChange(change, goods, `#/whatIfs/${at}/changes/${index}`)) }));
}

function ownChange(change: EstimatedChange, goods: readonly DescribedGoods[], pointer: string): RoomChange[] {
  if (change.kind === 'add-dehumidifier') return describedMachines([change.machine]).map((machine) => ({ kind: 'add-dehumidifier', machine }));
  if (change.kind !== 'take-off') return [change];
  const group = goods.findIndex(({ name }) => name === change.goods);
  const there = goods[group]?.group.count ?? 0;
  if (group < 0) throw faulty('A change takes off goods that the list does not have. Name them as in `goods`.', { detail: 'names nothing of the list of goods', code: 'unknown_name', pointer: `${pointer}/goods` });
  if (change.count > there) throw faulty('A change takes off more than there is. Correct its count.', { detail: `is more than the ${there} of the list`, code: 'out_of_range', pointer: `${pointer}/count` });
  return [{ kind: 'take-off', group, count: change.count }];
}

export interface AcceptanceEstimate {
  capPct: number;
  hanging: DescribedGoods[];
  waiting: DescribedGoods[];
  room: SimulatedRoom;
  acceptance: MixedAcceptance;
  /** By kind: how many if nothing else were hung. */
  alone: number[];
  sustainedKgPerH: number;
}

const MOST_ALONE = 2_000;

/** How many more of what may be hung now. */
export function acceptanceEstimate({ question, values }: AirQuestion<EstimateAcceptance>): AcceptanceEstimate {
  return inRange(() => {
    const room = describedRoom(question.room);
    const capPct = question.capPct ?? values.roomCapPct;
    const hanging = question.hanging.map((one, index) => describedGoods(one, index, values));
    const waiting = question.waiting.map((one, index) => describedGoods(one, index, values));
    const existing = hanging.map(({ group }) => group);
    const limits = { room, existing, withinH: question.withinH, capPct };
    const racks = waiting.map(({ rackM2 }, index) => question.waiting[index]?.rackM2PerItem ?? rackM2);
    const free = question.freeRackM2;
    const rackOf = (index: number) => (free === null || racks[index] == null ? {} : { rackM2PerItem: racks[index] });
    return {
      capPct, hanging, waiting, room,
      acceptance: mixedAcceptance({ ...limits, waiting: waiting.map(({ name, group }, index) => ({ ...group, id: name, ...rackOf(index) })), ...(free === null ? {} : { freeRackM2: free }) }, values),
      alone: waiting.map(({ group: { count: _count, ...item } }, index) => itemsAcceptable({ ...limits, item, itemsMax: MOST_ALONE, ...rackOf(index), ...(free === null ? {} : { freeRackM2: free }) }, values).items),
      sustainedKgPerH: sustainedRemoval({ ...room, capPct }, values).totalKgPerH,
    };
  });
}

/** What the contract cannot see: numbers that are each allowed and do not go together. */
function inRange<T>(reckon: () => T): T {
  try {
    return reckon();
  } catch (error) {
    if (!(error instanceof ClimateRangeError)) throw error;
    throw faulty(error.message, { detail: 'lies outside what can be reckoned with', code: 'out_of_range', pointer: '#' });
  }
}

function faulty(detail: string, error: { detail: string; code: string; pointer: string }): Problem {
  return new Problem('validation_failed', detail, { errors: [error] });
}
