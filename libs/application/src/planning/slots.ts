import type { Interval } from '#planning';
import type { Span } from '../ports/plan-input.js';

const MINUTE_MS = 60_000;
/** The planner's largest amount of anything. */
const MOST = 100_000_000;

/** Time in whole slots from an origin. */
export class SlotGrid {
  readonly originMs: number;
  readonly slotMs: number;

  /** The origin is the present moment rounded down to a slot. */
  constructor(nowMs: number, readonly slotMinutes: number, readonly horizonSlots: number) {
    this.slotMs = slotMinutes * MINUTE_MS;
    this.originMs = Math.floor(nowMs / this.slotMs) * this.slotMs;
  }

  /** The last slot boundary that is not after the moment. */
  floor(ms: number): number {
    return clampTo(Math.floor((ms - this.originMs) / this.slotMs), -MOST);
  }

  /** The first slot boundary that is not before the moment. */
  ceil(ms: number): number {
    return clampTo(Math.ceil((ms - this.originMs) / this.slotMs), -MOST);
  }

  /** Whole slots inside the spans and before `lastSlot`, in order; spans that hold no whole slot fall away. */
  inside(spans: readonly Span[], lastSlot = this.horizonSlots): Interval[] {
    return spans
      .map(({ fromMs, toMs }) => ({ from: Math.max(0, this.ceil(fromMs)), to: Math.min(lastSlot, this.floor(toMs)) }))
      .filter(({ from, to }) => to > from)
      .sort((a, b) => a.from - b.from || a.to - b.to);
  }

  /** Slots that a number of minutes takes, at least 1; more than the horizon counts as one more than the horizon. */
  taking(minutes: number): number {
    return Math.min(this.horizonSlots + 1, Math.max(1, Math.ceil(minutes / this.slotMinutes)));
  }

  /** All of the horizon from a moment on. */
  from(ms: number): Interval[] {
    return this.inside([{ fromMs: ms, toMs: this.originMs + this.horizonSlots * this.slotMs }]);
  }
}

/** A whole number of at least 0 that the planner takes. */
export function amount(value: number): number {
  return clampTo(Math.ceil(value), 0);
}

function clampTo(value: number, least: number): number {
  return Number.isFinite(value) ? Math.min(MOST, Math.max(least, value)) : least;
}

/** Order of identifiers that is the same on every machine. */
export function byId(a: { id: string }, b: { id: string }): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}
