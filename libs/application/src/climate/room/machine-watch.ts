/**
 * Do the dehumidifiers take what their labels promise in this air? Told from the moisture balance of a room over an hour or so,
 * and always on the machines' side: evaporation is trusted to its error and air exchange to a factor of two, so that an alarm means
 * something. Where outdoor air brings in more than the machines take, the level proves nothing and only a fall against the same
 * machines' own best does. Own method and numbers; the label curve is that of the climate library.
 */
import { dehumidifierRemovalKgPerH, humidityRatio, moistAir, specificVolumeM3PerKg, type ClockReading, type CalibrationValues, type Dehumidifier } from '#climate';
import { DEFAULT_ALARM_VALUES, type AlarmCalibrationKey, type AlarmValues } from '../alarms/calibration.js';
import type { AlarmEvidenceOf, AlarmVerdict } from '../alarms/types.js';
import { HOUR_MS } from '../durations.js';

/** The numbers of the alarms that a kept watch rests on. */
export const WATCH_RESTS_ON: readonly AlarmCalibrationKey[] = ['humidityClearPct', 'machineGapMostH', 'machineWindowH', 'machineWindowLeastH'];

/** One stretch between two readings: where water came from and went, kg. */
export interface WatchStretch {
  fromMs: number;
  toMs: number;
  evaporatedKg: number;
  /** Taken out by outdoor air at the room's stated air changes; negative: brought in. */
  outdoorAirKg: number;
  /** More in the air at the end than at the beginning. */
  storedKg: number;
  /** What the running machines take by their labels in this air. */
  expectedKg: number;
  /** What an ordinary hygrometer's error amounts to in this room. */
  noiseKg: number;
  relativeHumidityPct: number;
}

export interface MachineWatch {
  /** The machines that run, as one text; another text is another set, and its best is not known yet. */
  running: string;
  /** How many they are. */
  count: number;
  /** The last stretches with these machines, oldest first. */
  stretches: WatchStretch[];
  /** The greatest share of the labels seen with these machines, and the evaporation then. */
  best: { share: number; evaporationKgPerH: number } | null;
}

export const NO_WATCH: MachineWatch = { running: '', count: 0, stretches: [], best: null };

/** What happened between two readings. */
export interface WatchedStretch {
  before: ClockReading;
  after: ClockReading;
  evaporatedKg: number;
  volumeM3: number;
  airChangesPerH: number;
  outdoorHumidityRatio: number;
  /** Running throughout; null when somebody recorded a change within. */
  machines: readonly Dehumidifier[] | null;
}

/** The watch after one more stretch between readings. */
export function watchOn(watch: MachineWatch, stretch: WatchedStretch, values: CalibrationValues, alarms: AlarmValues = DEFAULT_ALARM_VALUES): MachineWatch {
  if (stretch.machines === null) return NO_WATCH;
  const running = stretch.machines.map((machine) => JSON.stringify(machine)).sort().join();
  const known = running === watch.running ? watch : { ...NO_WATCH, running };
  const one = balanceOf(stretch, stretch.machines, values, alarms);
  if (one === null) return { ...known, count: stretch.machines.length, stretches: [] };
  const fromMs = one.toMs - alarms.machineWindowH * HOUR_MS;
  const next: MachineWatch = { ...known, count: stretch.machines.length, stretches: [...known.stretches.filter((other) => other.toMs > fromMs), one] };
  const window = windowOf(next, alarms);
  if (window === null || window.expectedKg <= 0) return next;
  const share = window.estimateKg / window.expectedKg;
  return known.best !== null && known.best.share >= share ? next : { ...next, best: { share, evaporationKgPerH: window.evaporatedKg / window.hours } };
}

/** Null where the gap is too long to know the air within it. */
function balanceOf({ before, after, evaporatedKg, volumeM3, airChangesPerH, outdoorHumidityRatio }: WatchedStretch, machines: readonly Dehumidifier[], values: CalibrationValues, alarms: AlarmValues): WatchStretch | null {
  const hours = (after.atMs - before.atMs) / HOUR_MS;
  if (hours <= 0 || hours > alarms.machineGapMostH) return null;
  const air = airOf(before, after);
  const [first, last] = [ratioOf(before), ratioOf(after)];
  const dryAirKg = volumeM3 / specificVolumeM3PerKg(moistAir(air));
  const errorRatio = humidityRatio(moistAir({ ...air, relativeHumidityPct: alarms.humidityClearPct }));
  return {
    fromMs: before.atMs,
    toMs: after.atMs,
    evaporatedKg,
    outdoorAirKg: dryAirKg * airChangesPerH * hours * ((first + last) / 2 - outdoorHumidityRatio),
    storedKg: dryAirKg * (last - first),
    expectedKg: hours * machines.reduce((sum, machine) => sum + dehumidifierRemovalKgPerH(machine, air, false, values), 0),
    noiseKg: dryAirKg * errorRatio,
    relativeHumidityPct: air.relativeHumidityPct,
  };
}

function airOf(before: ClockReading, after: ClockReading): { airTempC: number; relativeHumidityPct: number } {
  return { airTempC: (before.airTempC + after.airTempC) / 2, relativeHumidityPct: ((before.relativeHumidityPct ?? 100) + (after.relativeHumidityPct ?? 100)) / 2 };
}

function ratioOf({ airTempC, relativeHumidityPct }: ClockReading): number {
  return humidityRatio(moistAir({ airTempC, relativeHumidityPct: relativeHumidityPct ?? 100 }));
}

interface Window {
  fromMs: number;
  toMs: number;
  hours: number;
  evaporatedKg: number;
  outdoorAirKg: number;
  storedKg: number;
  expectedKg: number;
  noiseKg: number;
  /** What the machines took if every figure is right. */
  estimateKg: number;
  relativeHumidityPct: number;
}

/** The stretches together; null when they say too little. */
function windowOf({ stretches }: MachineWatch, alarms: AlarmValues): Window | null {
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (first === undefined || last === undefined) return null;
  const hours = stretches.reduce((sum, { fromMs, toMs }) => sum + (toMs - fromMs) / HOUR_MS, 0);
  if (hours < alarms.machineWindowLeastH) return null;
  const total = (of: (stretch: WatchStretch) => number): number => stretches.reduce((sum, stretch) => sum + of(stretch), 0);
  const [evaporatedKg, outdoorAirKg, storedKg] = [total((one) => one.evaporatedKg), total((one) => one.outdoorAirKg), total((one) => one.storedKg)];
  return {
    fromMs: first.fromMs, toMs: last.toMs, hours, evaporatedKg, outdoorAirKg, storedKg,
    expectedKg: total((one) => one.expectedKg),
    // It is the ends that matter: errors in between cancel.
    noiseKg: Math.max(...stretches.map((one) => one.noiseKg)),
    estimateKg: evaporatedKg - outdoorAirKg - storedKg,
    relativeHumidityPct: total((one) => one.relativeHumidityPct * (one.toMs - one.fromMs)) / (hours * HOUR_MS),
  };
}

/** The verdict with its numbers; null when nothing can be said. */
export function watchVerdict(watch: MachineWatch, values: CalibrationValues, alarms: AlarmValues = DEFAULT_ALARM_VALUES): { verdict: AlarmVerdict; evidence: AlarmEvidenceOf['dehumidifier-short'] } | null {
  const window = windowOf(watch, alarms);
  if (window === null) return null;
  const atMostKg = Math.min(atMostByLevel(window, values, alarms), atMostByFall(window, watch, values));
  const { fromMs, toMs, expectedKg, noiseKg, relativeHumidityPct } = window;
  const evidence = { fromMs, toMs, running: watch.count, expectedKg, atMostKg, relativeHumidityPct };
  if (watch.count === 0) return { verdict: 'off', evidence };
  const silent = expectedKg < noiseKg / alarms.machineShare || relativeHumidityPct < alarms.machineLeastHumidityPct;
  if (silent) return { verdict: relativeHumidityPct < alarms.machineLeastHumidityPct ? 'off' : 'unknown', evidence };
  const share = atMostKg / expectedKg;
  if (share < alarms.machineShare) return { verdict: 'on', evidence };
  return { verdict: share >= alarms.machineShareClear ? 'off' : 'between', evidence };
}

/** Every figure taken on the machines' side. */
function atMostByLevel({ evaporatedKg, outdoorAirKg, storedKg, noiseKg }: Window, values: CalibrationValues, alarms: AlarmValues): number {
  const factor = alarms.machineExchangeFactor;
  const outdoor = outdoorAirKg > 0 ? outdoorAirKg / factor : outdoorAirKg * factor;
  return evaporatedKg / (1 - values.thinErrorFraction) - outdoor - storedKg + noiseKg;
}

/** At their best the machines took what their labels say, at most; since then the balance has lost so much, whatever its level is. */
function atMostByFall({ estimateKg, evaporatedKg, expectedKg, hours, noiseKg }: Window, { best }: MachineWatch, values: CalibrationValues): number {
  if (best === null || expectedKg <= 0) return Infinity;
  const changed = Math.abs(evaporatedKg - best.evaporationKgPerH * hours);
  const error = (changed * values.thinErrorFraction) / (1 - values.thinErrorFraction) + noiseKg;
  return expectedKg - (best.share * expectedKg - estimateKg - error);
}
