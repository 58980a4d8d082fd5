/** Collects what is malformed about a planning problem, one sentence per fault. */
import type { Interval } from './types.js';

/** One fault: where it is and what to correct. */
export interface ProblemFault {
  /** Path into the problem, such as `items[3].options[0].steps[2].durationSlots`. */
  path: string;
  text: string;
}

/** Largest amount of anything, so that sums over a slot stay inside 32 bits. */
export const MOST = 100_000_000;
/** 100,000 slots are almost three years of quarter hours. */
export const MOST_SLOTS = 100_000;

/** A place in the problem. It becomes a path only where a fault is found, as most problems are large and sound. */
export class Where {
  private constructor(private readonly parent: Where | null, private readonly name: string, private readonly index: number) {}

  static readonly top = new Where(null, '', -1);

  /** A part of this place; with an index an entry of a list. */
  in(name: string, index = -1): Where {
    return new Where(this, name, index);
  }

  toString(): string {
    const within = this.parent === null ? '' : this.parent.toString();
    return `${within}${within === '' ? '' : '.'}${this.name}${this.index < 0 ? '' : `[${this.index}]`}`;
  }
}

/** Each check adds a fault or nothing. */
export class Faults {
  readonly found: ProblemFault[] = [];

  add(where: Where, text: string): void {
    this.found.push({ path: where.toString(), text });
  }

  whole(where: Where, name: string, value: number, least: number, most: number): void {
    if (!Number.isSafeInteger(value)) this.add(where.in(name), `must be a whole number, not ${String(value)}`);
    else if (value < least) this.add(where.in(name), `must be at least ${least}, not ${value}`);
    else if (value > most) this.add(where.in(name), `must be at most ${most}, not ${value}`);
  }

  amount(where: Where, name: string, value: number): void {
    this.whole(where, name, value, 0, MOST);
  }

  interval(where: Where, { from, to }: Interval, least = 0): void {
    this.whole(where, 'from', from, least, MOST);
    this.whole(where, 'to', to, least, MOST);
    if (to <= from) this.add(where, `must end after it begins, but runs from ${from} to ${to}`);
  }

  intervals(where: Where, name: string, list: readonly Interval[]): void {
    list.forEach((interval, i) => { this.interval(where.in(name, i), interval); });
  }

  disjoint(where: Where, list: readonly Interval[]): void {
    const sorted = [...list].sort((a, b) => a.from - b.from);
    sorted.slice(1).forEach((interval, i) => {
      if (interval.from < sorted[i]!.to) this.add(where, `must not overlap, but two limits hold at slot ${interval.from}`);
    });
  }

  ids(name: string, list: readonly { id: string }[]): Set<string> {
    const seen = new Set<string>();
    list.forEach(({ id }, i) => {
      if (id === '') this.add(Where.top.in(name, i).in('id'), 'must not be empty');
      if (seen.has(id)) this.add(Where.top.in(name, i).in('id'), `"${id}" is used twice`);
      seen.add(id);
    });
    return seen;
  }

  known(where: Where, id: string, ids: ReadonlySet<string>, what: string): void {
    if (!ids.has(id)) this.add(where, `names no ${what} of this problem: "${id}"`);
  }

  oneOf(where: Where, name: string, value: string | undefined, allowed: readonly string[]): void {
    if (value !== undefined && !allowed.includes(value)) this.add(where.in(name), `must be ${allowed.map((one) => `"${one}"`).join(' or ')}, not "${value}"`);
  }
}
