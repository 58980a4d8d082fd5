/**
 * What must not lie together, as rows of free slots: a company has a row at each place where another keeps it away, 1 in every slot in
 * which nothing of such another lies there. It asks for its own row and takes of those of the others, so that the planner knows one
 * kind of limit only.
 */
import { NONE } from './free-slots.js';
import type { PlanCompany, PlanProblem } from './types.js';
import { byId } from './calendar.js';

type Closeness = keyof PlanCompany['notWith'];

const NOTHING: readonly number[] = [];

/** Companies by index, and their rows at the places and freezers of the problem ("hosts"). */
export class CompanyRows {
  readonly indexOf: ReadonlyMap<string, number>;
  /** By host and company: the row that must be free; `NONE` where nothing keeps it away. */
  private readonly asked: Int32Array;
  /** By host and company: the rows that it takes. */
  private readonly taken: (readonly number[])[] = [];
  /** Rows in all. */
  readonly count: number;

  /** @param first number of the first of the rows */
  constructor(companies: readonly PlanCompany[], hosts: readonly Closeness[], first: number) {
    const sorted = [...companies].sort(byId);
    this.indexOf = new Map(sorted.map(({ id }, i) => [id, i]));
    this.asked = new Int32Array(hosts.length * sorted.length).fill(NONE);
    let next = first;
    for (const closeness of hosts) {
      const apart = apartAt(sorted, closeness);
      const at = this.taken.length;
      apart.forEach((others, company) => { if (others.length > 0) this.asked[at + company] = next++; });
      for (const others of apart) this.taken.push(others.length === 0 ? NOTHING : others.map((other) => this.asked[at + other]!));
    }
    this.count = next - first;
  }

  /** The row in which there must be 1 as long as the company lies at the host; `NONE` where nothing has to be asked. */
  askedAt(host: number, company: number): number {
    return company === NONE ? NONE : this.asked[host * this.indexOf.size + company]!;
  }

  /** The rows of which it takes 1 as long as it lies there. */
  takenAt(host: number, company: number): readonly number[] {
    return company === NONE ? NOTHING : this.taken[host * this.indexOf.size + company]!;
  }

  /** The company of a step or use; `NONE` without one. */
  of(id: string | undefined): number {
    return id === undefined ? NONE : this.indexOf.get(id)!;
  }
}

/** The indices of those that each company must not be with. */
function apartAt(companies: readonly PlanCompany[], closeness: Closeness): number[][] {
  const lists = companies.map(({ notWith }) => new Set(notWith[closeness] ?? []));
  return companies.map(({ id }, i) => companies.flatMap((other, k) => (lists[i]!.has(other.id) || lists[k]!.has(id) ? [k] : [])));
}

/** How things are together at the drying places and then the freezers, in the order given. */
export function closenessOfHosts({ places, freezers }: Pick<PlanProblem, 'places' | 'freezers'>): Closeness[] {
  return [...places.map(({ closeness = 'side-by-side' }) => closeness), ...freezers.map(() => 'frozen' as const)];
}
