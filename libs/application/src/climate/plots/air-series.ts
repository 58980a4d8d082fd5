/** Readings of a room as they are drawn: line by line for each who measured, with what is in doubt beside them. */
import { thinPoints, type CalibrationValues, type PlotPoint } from '#climate';
import type { ClimateReadingRecord } from '../../ports/climate-records-store.js';
import { HOUR_MS } from '../durations.js';

/** Lines that are told apart; with more who measured, dots without lines. Own choice. */
const MOST_LINES = 3;

/** One who measured: the code of a sensor, or null for hands. */
export interface MeasuredBy {
  sensorCode: string | null;
  tempC: PlotPoint[];
  humidityPct: PlotPoint[];
}

/** What was measured in the time shown. */
export interface PlotAir {
  by: MeasuredBy[];
  /** Too many measure to follow each: `by` is one of all, to be drawn without lines. */
  merged: boolean;
  doubtedTempC: PlotPoint[];
  doubtedHumidityPct: PlotPoint[];
  /** A longer pause leaves a line open, ms. */
  longestGapMs: number;
  /** There are readings before these that are too many to be shown. */
  cutShort: boolean;
}

/** Puts readings, oldest first, in lines; thinned so that no peak is lost. */
export function plotAir(readings: readonly ClimateReadingRecord[], sensorCodes: ReadonlyMap<string, string>, cutShort: boolean, values: CalibrationValues): PlotAir {
  const believed = readings.filter(({ state }) => state === 'accepted');
  const doubted = readings.filter(({ state }) => state === 'doubtful');
  const ids = [...new Set(believed.map(({ sensorId }) => sensorId))];
  const merged = ids.length > MOST_LINES;
  const groups = merged ? [{ sensorCode: null, readings: believed }] : ids.map((id) => ({ sensorCode: id === null ? null : (sensorCodes.get(id) ?? null), readings: believed.filter(({ sensorId }) => sensorId === id) })).sort(byCode);
  return {
    by: groups.map((group) => ({ sensorCode: group.sensorCode, tempC: thinPoints(tempsOf(group.readings)), humidityPct: thinPoints(humiditiesOf(group.readings)) })),
    merged, doubtedTempC: thinPoints(tempsOf(doubted)), doubtedHumidityPct: thinPoints(humiditiesOf(doubted)),
    longestGapMs: merged ? 0 : values.readingGapInterpolatedMaxH * HOUR_MS, cutShort,
  };
}

/** The same look for the same sensor in every picture; hands come last. */
function byCode(a: { sensorCode: string | null }, b: { sensorCode: string | null }): number {
  if (a.sensorCode === null || b.sensorCode === null) return Number(a.sensorCode === null) - Number(b.sensorCode === null);
  return a.sensorCode < b.sensorCode ? -1 : 1;
}

function tempsOf(readings: readonly ClimateReadingRecord[]): PlotPoint[] {
  return readings.map(({ measuredAtMs, airTempC }) => ({ atMs: measuredAtMs, value: airTempC }));
}

function humiditiesOf(readings: readonly ClimateReadingRecord[]): PlotPoint[] {
  return readings.flatMap(({ measuredAtMs, relativeHumidityPct }) => (relativeHumidityPct === null ? [] : [{ atMs: measuredAtMs, value: relativeHumidityPct }]));
}
