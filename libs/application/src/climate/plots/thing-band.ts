/**
 * How far the water in a thing may be from what is reckoned: the error is that of the speed of drying, so time counts from when the
 * water was last known, stretched and shrunk. It meets the earliest and latest moments of `forecastRoom`.
 */
import type { BandShares } from '../room/fits.js';

/** Moisture of a thing at a moment, kg water per kg that its class weighs dry: by the thin-goods model, and the most and least that it may be at that speed (at the slow end of it for thick and closed ones). */
export interface ThingMoisture {
  atMs: number;
  x: number;
  mostX: number;
  leastX: number;
}

/** The ends for a moment; before the water was last known the error of the speed is left out. */
export type MoistureBand = (point: ThingMoisture) => { lowX: number; highX: number };

/** `curve` in order of time; the values of its ends are held beyond them. `shares`: how long drying may take at the fast and the slow end, in parts of what is expected. */
export function moistureBand(curve: readonly ThingMoisture[], knownAtMs: number, thick: boolean, { fast, slow }: BandShares): MoistureBand {
  const since = curve.filter(({ atMs }) => atMs >= knownAtMs);
  return ({ atMs, x, mostX, leastX }) => {
    if (atMs < knownAtMs || since.length === 0) return { lowX: Math.min(x, leastX), highX: Math.max(x, mostX) };
    const lowX = along(since, 'leastX', knownAtMs + (atMs - knownAtMs) / fast);
    const highX = thick ? mostX : along(since, 'mostX', knownAtMs + (atMs - knownAtMs) / slow);
    return { lowX: Math.min(x, lowX), highX: Math.max(x, highX) };
  };
}

/** Along straight lines between the points. */
function along(curve: readonly ThingMoisture[], of: 'mostX' | 'leastX', atMs: number): number {
  const [a, b] = [curve.findLast((point) => point.atMs < atMs), curve.find((point) => point.atMs >= atMs)];
  if (a === undefined || b === undefined) return (a ?? b)?.[of] ?? 0;
  return a[of] + ((atMs - a.atMs) / (b.atMs - a.atMs)) * (b[of] - a[of]);
}
