/** Calendars as dense tables, one entry per slot of the horizon. */
import type { Interval } from './types.js';

/** 1 in every slot of `[0, horizonSlots)` that lies in one of the intervals; touching intervals join. */
export function openMask(intervals: readonly Interval[], horizonSlots: number): Uint8Array {
  const mask = new Uint8Array(horizonSlots);
  for (const { from, to } of intervals) mask.fill(1, clip(from, horizonSlots), clip(to, horizonSlots));
  return mask;
}

/** `next[t]` is the first open slot at or after `t`, or the horizon; lets a scan jump a closed stretch at once. */
export function nextOpenTable(mask: Uint8Array): Int32Array {
  const next = new Int32Array(mask.length + 1);
  next[mask.length] = mask.length;
  for (let slot = mask.length - 1; slot >= 0; slot -= 1) next[slot] = mask[slot] === 1 ? slot : next[slot + 1]!;
  return next;
}

/** Open slots left from each slot on, 0 where closed. */
export function runTable(mask: Uint8Array): Int32Array {
  const run = new Int32Array(mask.length);
  let left = 0;
  for (let slot = mask.length - 1; slot >= 0; slot -= 1) {
    left = mask[slot] === 1 ? left + 1 : 0;
    run[slot] = left;
  }
  return run;
}

/** The slot nearest to `slot` inside `[0, horizonSlots]`. */
export function clip(slot: number, horizonSlots: number): number {
  return Math.min(Math.max(slot, 0), horizonSlots);
}

/** Order of identifiers that is the same on every machine (code units, no locale). */
export function byId(a: { id: string }, b: { id: string }): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}
