/** Slot-by-slot account of one kind of resource for the validator, planned and fixed use apart. */
import type { Interval } from './types.js';

/** Uses by resource id and slot. */
export class Ledger {
  private readonly planned = new Map<string, number[]>();
  private readonly fixed = new Map<string, number[]>();

  constructor(private readonly slots: number) {}

  /** Enters a planned use. */
  enter(id: string, span: Interval, amount: number): void {
    add(this.planned, id, span, amount, this.slots);
  }

  /** Enters a use that has begun and cannot be moved. */
  fix(id: string, span: Interval, amount: number): void {
    add(this.fixed, id, span, amount, this.slots);
  }

  /** First slot with some planned use in which all uses together exceed the limit; `null` if there is none. */
  firstOverdrawn(id: string, limit: (slot: number) => number): number | null {
    const planned = this.planned.get(id);
    if (planned === undefined) return null;
    const fixed = this.fixed.get(id);
    const slot = planned.findIndex((amount, at) => amount > 0 && amount + (fixed?.[at] ?? 0) > limit(at));
    return slot === -1 ? null : slot;
  }
}

function add(book: Map<string, number[]>, id: string, span: Interval, amount: number, slots: number): void {
  let account = book.get(id);
  if (account === undefined) book.set(id, (account = Array.from<number>({ length: slots }).fill(0)));
  for (let slot = Math.max(0, span.from); slot < Math.min(slots, span.to); slot += 1) account[slot] = account[slot]! + amount;
}
