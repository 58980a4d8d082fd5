/** What lies where, for things that must not lie together. Written from the problem statement alone. */
import type { PlanProblem } from '#planning';

interface Lies { company: string; from: number; to: number }

/** Drying places by `place` and freezers by `freezer`, each with its position in the list of the problem. */
export class Lying {
  private readonly there = new Map<string, Lies[]>();

  constructor(private readonly problem: PlanProblem) {
    const { places, freezers, fixed } = problem;
    for (const { dryingPlaceId, freezerId, company, interval: { from, to } } of fixed) {
      if (dryingPlaceId !== null) this.put('place', places.findIndex(({ id }) => id === dryingPlaceId), company, from, to);
      if (freezerId !== null) this.put('freezer', freezers.findIndex(({ id }) => id === freezerId), company, from, to);
    }
  }

  put(kind: 'place' | 'freezer', index: number, company: string | undefined, from: number, to: number): void {
    if (company === undefined || to <= from) return;
    const key = `${kind} ${index}`;
    this.there.set(key, [...(this.there.get(key) ?? []), { company, from, to }]);
  }

  /** The last slot of `[from, to)` in which something lies there that it must not be with; -1 when there is none. */
  lastMet(kind: 'place' | 'freezer', index: number, company: string | undefined, from: number, to: number): number {
    if (company === undefined) return -1;
    const closeness = kind === 'freezer' ? 'frozen' : (this.problem.places[index]!.closeness ?? 'side-by-side');
    const met = (this.there.get(`${kind} ${index}`) ?? []).filter((other) => other.from < to && other.to > from && this.areApart(company, other.company, closeness));
    return Math.max(-1, ...met.map((other) => Math.min(other.to, to) - 1));
  }

  private areApart(one: string, other: string, closeness: 'tiers' | 'side-by-side' | 'frozen'): boolean {
    const lists = (a: string, b: string): boolean => (this.problem.companies ?? []).some(({ id, notWith }) => id === a && notWith[closeness]?.includes(b) === true);
    return lists(one, other) || lists(other, one);
  }
}
