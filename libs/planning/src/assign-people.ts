/**
 * Who does what, once it is settled how many people of a kind are needed when. People of a pool are alike, so whoever is free
 * longest takes the next piece of work: with as many people as are ever needed at once, somebody always is.
 */
import type { Resources } from './resources.js';
import type { PlacedStep } from './timetable.js';
import type { PreviousUse } from './instability.js';

const NOBODY: string[] = [];
const NONE_WANTED: readonly number[] = [];

/** Gives out the work of a plan. */
export class Hands {
  private readonly rest: RestedFirst[];
  private readonly ofBatch = new Map<object, string[]>();
  /** Lists of one person: most work is one person's, and equal lists are one. */
  private readonly alone: (string[] | undefined)[] = [];

  constructor(private readonly resources: Resources) {
    this.rest = resources.pools.map(({ members }) => new RestedFirst(members));
  }

  /**
   * Ids, in order, of who does a step; must be asked for the steps in the order of their starts. Those who share a batch are the same people.
   * @param previous steps of the item in the plan in force: who was to do the step does it where that may be
   */
  take({ step, start, end, crew, batch }: PlacedStep, previous: readonly PreviousUse[]): string[] {
    if (crew.length === 0) return NOBODY;
    const known = batch === null ? undefined : this.ofBatch.get(batch);
    if (known !== undefined) return known;
    const { rest, resources: { people, row } } = this;
    const asBefore = previous.findLast(({ kind }) => kind === step.kind)?.people ?? NONE_WANTED;
    const taken = crew.map((pool) => rest[pool - row.pool]!.take(start, end, asBefore));
    const ids = taken.length === 1 ? (this.alone[taken[0]!] ??= [people[taken[0]!]!.id]) : taken.map((person) => people[person]!.id).sort();
    if (batch !== null) this.ofBatch.set(batch, ids);
    return ids;
  }
}

/** The people of a pool, as a heap of who has been free for longest. Work must be given out in the order of its start. */
class RestedFirst {
  private readonly heap: { person: number; freeFrom: number }[];

  constructor(members: readonly number[]) {
    this.heap = members.map((person) => ({ person, freeFrom: -1 }));
  }

  /** Who takes the work: one of those preferred who is free, else who has rested longest. */
  take(start: number, end: number, preferred: readonly number[]): number {
    const { heap } = this;
    const found = preferred.length === 0 ? -1 : heap.findIndex(({ person, freeFrom }) => freeFrom <= start && preferred.includes(person));
    const at = Math.max(0, found);
    const taken = heap[at]!;
    taken.freeFrom = end;
    this.sink(at);
    return taken.person;
  }

  private sink(from: number): void {
    const { heap } = this;
    let at = from;
    for (;;) {
      const [left, right] = [2 * at + 1, 2 * at + 2];
      let least = at;
      if (left < heap.length && sooner(heap[left]!, heap[least]!)) least = left;
      if (right < heap.length && sooner(heap[right]!, heap[least]!)) least = right;
      if (least === at) return;
      [heap[at], heap[least]] = [heap[least]!, heap[at]!];
      at = least;
    }
  }
}

function sooner(a: { person: number; freeFrom: number }, b: { person: number; freeFrom: number }): boolean {
  return a.freeFrom < b.freeFrom || (a.freeFrom === b.freeFrom && a.person < b.person);
}
