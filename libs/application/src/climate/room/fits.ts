/**
 * How fast things of one material dry in one arrangement of a room, refitted from what was weighed there (`fitArrangement` of the
 * climate library, where method and marks stand). The area of a thing is that of its size class, here as in the reckoning that the
 * factor is used in, so an error of it goes into the factor and comes out again.
 */
import { fitArrangement, type ArrangementFit, type Build, type CalibrationValues, type ClockReading, type LeftOutReason, type Material, type WeighingSeries } from '#climate';
import { HOUR_MS } from '../durations.js';
import { dryMassKgEach, goodsOf, materialOf, standardOf } from './goods.js';
import type { HangingStay, HungItem, RoomFacts } from './inputs.js';

/** What a factor holds for: a thing of this material and build, in this arrangement of the room. */
export interface SpeedGroup {
  material: Material;
  build: Build;
  arrangement: HangingStay['arrangement'];
}

/** A factor that a room is reckoned with in place of the general one. */
export interface SpeedFactor extends SpeedGroup {
  factor: number;
}

/** The same with the ends of its 80 % interval, which say when a thing is dry at the earliest and latest. */
export interface FittedSpeed extends SpeedFactor {
  low: number;
  high: number;
  /** How many weighings it rests on. */
  weighings: number;
}

/** Why a weighing was not used, beside the reasons of the climate library. */
export type UnusedReason = LeftOutReason | 'in-doubt' | 'lot-split';

/** The weighings of one thing while it hung in one arrangement. */
export interface WeighedStay {
  id: string;
  itemId: string;
  placeIds: string[];
}

export interface RoomFit extends SpeedGroup {
  stays: WeighedStay[];
  fit: ArrangementFit;
  unused: { itemId: string; atMs: number; reason: UnusedReason }[];
  /** What the room is reckoned with; null where the weighings say too little, and then it is the general factor. */
  speed: FittedSpeed | null;
}

export interface RoomFits {
  fits: RoomFit[];
  /** Weighings looked at, and older ones that were not. */
  weighings: number;
  olderWeighings: number;
}

/** The newest weighings of a room count. Own choice: some weeks of a full hall, and a fit of them takes well under a second. */
export const MOST_WEIGHINGS = 500;
/**
 * Factors are reckoned with in steps of two per cent, the ends rounded outwards: a weighing that changes next to nothing must not
 * have the whole past of the room reckoned anew. Own choice, far finer than any fit.
 */
const STEP = 0.02;
const stepped = (factor: number, round: (steps: number) => number): number => Math.exp(round(Math.log(factor) / STEP) * STEP);
/** The drying model takes no factor beyond this. */
export const FACTOR_MOST = 5;

export const speedGroupOf = (item: HungItem, arrangement: HangingStay['arrangement']): SpeedGroup => ({ material: materialOf(item), build: standardOf(item.sizeClass).build, arrangement });

export const keyOf = ({ material, build, arrangement }: SpeedGroup): string => `${arrangement}/${material}/${build}`;

/** The factor that goes for a thing where it hangs; null for the general one. */
export function speedFor<S extends SpeedFactor>(speeds: readonly S[], item: HungItem | undefined, arrangement: HangingStay['arrangement']): S | null {
  if (item === undefined || speeds.length === 0) return null;
  const key = keyOf(speedGroupOf(item, arrangement));
  return speeds.find((speed) => keyOf(speed) === key) ?? null;
}

/** Without what does not touch the past. */
export const factorOnly = ({ material, build, arrangement, factor }: SpeedFactor): SpeedFactor => ({ material, build, arrangement, factor });

/** How long drying may take at the ends, in parts of what is expected. */
export interface BandShares {
  fast: number;
  slow: number;
}

/** By the interval of a fitted factor, as time goes with its inverse; else by the general error of the speed. */
export function bandShares(speed: FittedSpeed | null, { thinErrorFraction }: CalibrationValues): BandShares {
  return speed === null ? { fast: 1 - thinErrorFraction, slow: 1 / (1 - thinErrorFraction) } : { fast: speed.factor / speed.high, slow: speed.factor / speed.low };
}

/** Moments that a fit needs air of: from before the first weighing on a place that counts; null when nothing was weighed twice. */
export function airNeededFrom(facts: Pick<RoomFacts, 'stays' | 'items'>, nowMs: number, values: CalibrationValues): number | null {
  const moments = newestWeighed(facts, nowMs).weighed.flatMap(({ points: [first, second] }) => (first === undefined || second === undefined ? [] : [first.atMs]));
  return moments.length === 0 ? null : Math.min(...moments) - values.readingHoldH * HOUR_MS;
}

/** Fits every material in every arrangement of the room that something was weighed in, up to a moment. `air`: of the room, in order. */
export function fitRoom(facts: Pick<RoomFacts, 'stays' | 'items'>, air: readonly ClockReading[], nowMs: number, values: CalibrationValues): RoomFits {
  const { weighed, looked, older } = newestWeighed(facts, nowMs);
  const groups = new Map<string, WeighedHanging[]>();
  for (const one of weighed) {
    const key = keyOf(speedGroupOf(one.item, one.arrangement));
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const fits = [...groups.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, hangings]) => fitGroup(hangings, air, values));
  return { fits, weighings: looked, olderWeighings: older };
}

/** What the room is reckoned with. */
export function speedsOf({ fits }: RoomFits): FittedSpeed[] {
  return fits.flatMap(({ speed }) => (speed === null ? [] : [speed]));
}

type Point = HungItem['weighings'][number];

/** A thing while it hung in one arrangement without leaving it, with what was weighed then. */
interface WeighedHanging {
  item: HungItem;
  arrangement: HangingStay['arrangement'];
  fromMs: number;
  placeIds: string[];
  points: Point[];
  doubtedMs: number[];
}

function newestWeighed({ stays, items }: Pick<RoomFacts, 'stays' | 'items'>, nowMs: number): { weighed: WeighedHanging[]; looked: number; older: number } {
  const all = items.flatMap((item) => hangingsOf(item, stays, nowMs));
  const moments = all.flatMap(({ points, doubtedMs }) => [...points.map(({ atMs }) => atMs), ...doubtedMs]).sort((a, b) => b - a);
  const fromMs = moments[MOST_WEIGHINGS - 1] ?? -Infinity;
  const weighed = all.map((one) => ({ ...one, points: one.points.filter(({ atMs }) => atMs >= fromMs), doubtedMs: one.doubtedMs.filter((atMs) => atMs >= fromMs) }))
    .filter(({ points, doubtedMs }) => points.length + doubtedMs.length > 0);
  const looked = moments.filter((atMs) => atMs >= fromMs).length;
  return { weighed, looked, older: moments.length - looked };
}

function hangingsOf(item: HungItem, stays: readonly HangingStay[], nowMs: number): (WeighedHanging & { toMs: number })[] {
  if (item.weighings.length + item.doubtedMs.length === 0) return [];
  const joined: (WeighedHanging & { toMs: number })[] = [];
  const own = stays.filter(({ itemId, fromMs, toMs }) => itemId === item.id && fromMs <= (toMs ?? Infinity)).sort((a, b) => a.fromMs - b.fromMs || a.seq - b.seq);
  for (const { arrangement, fromMs, toMs, placeId } of own) {
    const last = joined.at(-1);
    if (last !== undefined && last.toMs === fromMs && last.arrangement === arrangement) Object.assign(last, { toMs: toMs ?? Infinity, placeIds: [...new Set([...last.placeIds, placeId])] });
    else joined.push({ item, arrangement, fromMs, toMs: toMs ?? Infinity, placeIds: [placeId], points: [], doubtedMs: [] });
  }
  // Weighed at the very moment of a move, it was as it had hung before.
  const at = (atMs: number) => (atMs > nowMs ? undefined : joined.find((stay) => atMs >= stay.fromMs && atMs <= stay.toMs));
  for (const point of item.weighings) at(point.atMs)?.points.push(point);
  for (const atMs of item.doubtedMs) at(atMs)?.doubtedMs.push(atMs);
  return joined;
}

function fitGroup(hangings: readonly WeighedHanging[], air: readonly ClockReading[], values: CalibrationValues): RoomFit {
  const [first] = hangings;
  if (first === undefined) throw new Error('a group of nothing');
  const group = speedGroupOf(first.item, first.arrangement);
  const series = hangings.map((hanging) => seriesOf(hanging, air, values));
  const fit = fitArrangement({ airReach: 'open-rack', series }, values);
  const itemOf = new Map(hangings.map((hanging) => [idOf(hanging), hanging.item.id]));
  const unused = [
    ...fit.leftOut.map(({ seriesId, atMs, reason }) => ({ itemId: itemOf.get(seriesId) ?? '', atMs, reason })),
    ...hangings.flatMap(({ item, doubtedMs }) => doubtedMs.map((atMs) => ({ itemId: item.id, atMs, reason: 'in-doubt' as const }))),
    ...hangings.flatMap(({ item, points }) => points.filter(({ atMs }) => wasMore(item, atMs)).map(({ atMs }) => ({ itemId: item.id, atMs, reason: 'lot-split' as const }))),
  ].sort((a, b) => a.atMs - b.atMs || (a.itemId < b.itemId ? -1 : 1));
  const { factor, interval80: { low, high } } = fit;
  const speed = fit.informative && factor <= FACTOR_MOST ? { ...group, factor: stepped(factor, Math.round), low: stepped(low, Math.floor), high: stepped(high, Math.ceil), weighings: fit.used.reduce((sum, run) => sum + run.weighings, 0) } : null;
  return { ...group, stays: hangings.map((hanging) => ({ id: idOf(hanging), itemId: hanging.item.id, placeIds: hanging.placeIds })), fit, unused, speed };
}

/** Things that hang now and were weighed since they hang in that arrangement, as a series of weighings. */
export function currentSeries(facts: Pick<RoomFacts, 'stays' | 'items'>, air: readonly ClockReading[], nowMs: number, values: CalibrationValues): { item: HungItem; arrangement: HangingStay['arrangement']; series: WeighingSeries }[] {
  return facts.items.flatMap((item) => {
    const last = hangingsOf(item, facts.stays, nowMs).at(-1);
    if (last === undefined || last.toMs !== Infinity) return [];
    const series = seriesOf(last, air, values);
    return series.weighings.length === 0 ? [] : [{ item, arrangement: last.arrangement, series }];
  });
}

const idOf = ({ item, fromMs }: WeighedHanging): string => `${item.id}@${fromMs}`;

/** Until pieces were taken out of a lot it weighed, and dried, as more than is on record of it now. */
const wasMore = ({ lotSplitMs }: HungItem, atMs: number): boolean => lotSplitMs !== null && atMs <= lotSplitMs;

function seriesOf(hanging: WeighedHanging, air: readonly ClockReading[], values: CalibrationValues): WeighingSeries {
  const { item, arrangement } = hanging;
  const points = hanging.points.filter(({ atMs }) => !wasMore(item, atMs));
  const { material, build, exposedAreaM2 } = goodsOf(item, arrangement, { moistureX: 0, dose: 0 }, values);
  const [fromMs, toMs] = [(points[0]?.atMs ?? 0) - values.readingHoldH * HOUR_MS, points.at(-1)?.atMs ?? 0];
  return {
    id: idOf(hanging), material, ...(build === undefined ? {} : { build }), dryMassKg: dryMassKgEach(item) * item.count, dryMassErrorFraction: values.classDryMassError, exposedAreaM2: exposedAreaM2 * item.count,
    weighings: points.map(({ atMs, massKg, resolutionKg }) => ({ atMs, massKg, scaleDivisionKg: resolutionKg })),
    air: points.length < 2 ? [] : air.flatMap(({ atMs, airTempC, relativeHumidityPct }) => (atMs < fromMs || atMs > toMs || relativeHumidityPct === null ? [] : [{ atMs, airTempC, relativeHumidityPct }])),
  };
}
