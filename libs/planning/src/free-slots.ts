/**
 * What is free of each resource in each slot, as dense rows with the least and the most of each block of slots beside them:
 * a scan passes over full blocks and accepts empty ones without reading their slots.
 */

/** No slot fits. */
export const NONE = -1;
/** Free amount of a closed slot: so far below zero that no booking or undo can bring it near a capacity. */
export const CLOSED = -(2 ** 30);

const SHIFT = 4;
const BLOCK = 1 << SHIFT;

/** What a drying thing gives the air: `amounts[i]` from slot `from[i]` of its drying on; never rising, `from[0]` is 0. */
export interface FallingNeed { from: readonly number[]; amounts: readonly number[] }

/** Rows of free amounts. Slots given must lie inside the horizon; the callers' limits see to it. */
export class FreeSlots {
  private readonly blocks: number;
  /** What is free, less what `common` says of the whole block. */
  private readonly own: Int32Array;
  /** What has been added to all slots of a block: long uses touch their blocks alone. */
  private readonly common: Int32Array;
  private readonly least: Int32Array;
  private readonly most: Int32Array;

  private constructor(readonly rows: number, readonly horizon: number, copied: FreeSlots | null) {
    this.blocks = Math.ceil(horizon / BLOCK);
    this.own = copied?.own.slice() ?? new Int32Array(rows * horizon);
    this.common = copied?.common.slice() ?? new Int32Array(rows * this.blocks);
    this.least = copied?.least.slice() ?? new Int32Array(rows * this.blocks);
    this.most = copied?.most.slice() ?? new Int32Array(rows * this.blocks);
  }

  /** Takes over rows of the length of the horizon. */
  static of(rows: readonly Int32Array[], horizon: number): FreeSlots {
    const slots = new FreeSlots(rows.length, horizon, null);
    rows.forEach((row, i) => {
      slots.own.set(row, i * horizon);
      for (let block = 0; block < slots.blocks; block += 1) slots.refresh(i, block);
    });
    return slots;
  }

  copy(): FreeSlots {
    return new FreeSlots(this.rows, this.horizon, this);
  }

  /** Takes over the amounts of rows of the same size. */
  become(other: FreeSlots): void {
    this.own.set(other.own);
    this.common.set(other.common);
    this.least.set(other.least);
    this.most.set(other.most);
  }

  at(row: number, slot: number): number {
    return this.own[row * this.horizon + slot]! + this.common[row * this.blocks + (slot >> SHIFT)]!;
  }

  /** First slot in `[from, last]` with at least `amount` free, or `NONE`. */
  nextFit(row: number, from: number, last: number, amount: number): number {
    const { own, common, most } = this;
    const base = row * this.horizon;
    const blockBase = row * this.blocks;
    let slot = from;
    while (slot <= last) {
      const block = slot >> SHIFT;
      const after = (block + 1) << SHIFT;
      if (most[blockBase + block]! < amount) {
        slot = after;
        continue;
      }
      const end = after <= last ? after : last + 1;
      const least = amount - common[blockBase + block]!;
      for (; slot < end; slot += 1) if (own[base + slot]! >= least) return slot;
    }
    return NONE;
  }

  /** Last slot in `[from, to)` with less than `amount` free, or `NONE`. */
  lastShort(row: number, from: number, to: number, amount: number): number {
    const { own, common, least } = this;
    const base = row * this.horizon;
    const blockBase = row * this.blocks;
    let slot = to - 1;
    while (slot >= from) {
      const block = slot >> SHIFT;
      const start = block << SHIFT;
      if (least[blockBase + block]! >= amount) {
        slot = start - 1;
        continue;
      }
      const stop = start > from ? start : from;
      const enough = amount - common[blockBase + block]!;
      for (; slot >= stop; slot -= 1) if (own[base + slot]! < enough) return slot;
    }
    return NONE;
  }

  /** First slot in `[from, to)` with less than `amount` free; `to` when there is none. */
  firstShort(row: number, from: number, to: number, amount: number): number {
    const { own, common, least } = this;
    const base = row * this.horizon;
    const blockBase = row * this.blocks;
    let slot = from;
    while (slot < to) {
      const block = slot >> SHIFT;
      const after = (block + 1) << SHIFT;
      if (least[blockBase + block]! >= amount) {
        slot = after;
        continue;
      }
      const end = after < to ? after : to;
      const enough = amount - common[blockBase + block]!;
      for (; slot < end; slot += 1) if (own[base + slot]! < enough) return slot;
    }
    return to;
  }

  /** Earliest start in `[from, last]` of `duration` slots, all with at least `amount` free, or `NONE`. */
  earliest(row: number, from: number, duration: number, last: number, amount: number): number {
    let start = this.nextFit(row, from, last, amount);
    while (start !== NONE) {
      const short = this.lastShort(row, start + 1, start + duration, amount);
      if (short === NONE) return start;
      start = this.nextFit(row, short + 1, last, amount);
    }
    return NONE;
  }

  /** The same for a need that falls: a slot that is short of it stays so for any later start that still covers it. */
  earliestFalling(row: number, from: number, duration: number, last: number, need: FallingNeed): number {
    let start = from;
    while (start <= last) {
      const short = this.lastShortFalling(row, start, duration, need);
      if (short === NONE) return start;
      start = short + 1;
    }
    return NONE;
  }

  private lastShortFalling(row: number, start: number, duration: number, { from, amounts }: FallingNeed): number {
    for (let i = amounts.length - 1; i >= 0; i -= 1) {
      if (amounts[i] === 0) continue;
      const end = i + 1 < from.length ? Math.min(from[i + 1]!, duration) : duration;
      const short = this.lastShort(row, start + from[i]!, start + end, amounts[i]!);
      if (short !== NONE) return short;
    }
    return NONE;
  }

  /** Least free amount in `[from, to)`. */
  leastIn(row: number, from: number, to: number): number {
    const { own, common, least } = this;
    const base = row * this.horizon;
    const blockBase = row * this.blocks;
    let lowest = Number.POSITIVE_INFINITY;
    for (let slot = from; slot < to;) {
      const block = slot >> SHIFT;
      const after = (block + 1) << SHIFT;
      const end = after < to ? after : to;
      if (slot === block << SHIFT && end === after) lowest = Math.min(lowest, least[blockBase + block]!);
      else for (; slot < end; slot += 1) lowest = Math.min(lowest, own[base + slot]! + common[blockBase + block]!);
      slot = end;
    }
    return lowest;
  }

  /** Adds to what is free in `[from, to)`; takes when the amount is negative. */
  add(row: number, from: number, to: number, amount: number): void {
    const { own, common, least, most, horizon } = this;
    const base = row * horizon;
    const blockBase = row * this.blocks;
    const last = (to - 1) >> SHIFT;
    for (let block = from >> SHIFT; block <= last; block += 1) {
      const begins = block << SHIFT;
      const after = begins + BLOCK;
      if (from <= begins && to >= Math.min(horizon, after)) {
        common[blockBase + block] = common[blockBase + block]! + amount;
        least[blockBase + block] = least[blockBase + block]! + amount;
        most[blockBase + block] = most[blockBase + block]! + amount;
        continue;
      }
      const end = to < after ? to : after;
      for (let slot = from > begins ? from : begins; slot < end; slot += 1) own[base + slot] = own[base + slot]! + amount;
      this.refresh(row, block);
    }
  }

  /** Adds a falling amount over `[start, start + duration)`. */
  addFalling(row: number, start: number, duration: number, { from, amounts }: FallingNeed, sign: 1 | -1): void {
    for (let i = 0; i < amounts.length; i += 1) {
      const end = i + 1 < from.length ? Math.min(from[i + 1]!, duration) : duration;
      if (amounts[i] !== 0 && end > from[i]!) this.add(row, start + from[i]!, start + end, sign * amounts[i]!);
    }
  }

  private refresh(row: number, block: number): void {
    const { own, horizon } = this;
    const base = row * horizon;
    const end = base + Math.min(horizon, (block + 1) << SHIFT);
    let low = own[base + (block << SHIFT)]!;
    let high = low;
    for (let i = base + (block << SHIFT) + 1; i < end; i += 1) {
      const amount = own[i]!;
      if (amount < low) low = amount;
      if (amount > high) high = amount;
    }
    const at = row * this.blocks + block;
    this.least[at] = low + this.common[at]!;
    this.most[at] = high + this.common[at]!;
  }
}
