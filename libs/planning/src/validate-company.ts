/** The part of plan validation that concerns what must not lie together; like the rest it shares no code with the planner. */
import type { Interval, PlanAssignment, PlanProblem } from './types.js';

/** One thing at one place for one stretch of time; `null` for a use that has begun. */
interface Lying { company: string; from: number; to: number; assignment: PlanAssignment | null }

/** Two things that lie together and must not. */
export interface BadCompany { hostId: string; assignment: PlanAssignment; other: string }

/** What lies at each drying place and in each freezer. */
export class CompanyBook {
  private readonly lying = new Map<string, Lying[]>();

  constructor(private readonly problem: PlanProblem) {
    for (const { dryingPlaceId, freezerId, company, interval } of problem.fixed) {
      if (dryingPlaceId !== null) this.enter(`place ${dryingPlaceId}`, company, interval, null);
      if (freezerId !== null) this.enter(`freezer ${freezerId}`, company, interval, null);
    }
  }

  /** @param host `place` or `freezer`, a space, and its id */
  enter(host: string, company: string | undefined, { from, to }: Interval, assignment: PlanAssignment | null): void {
    if (company === undefined || !(from < to)) return;
    const here = this.lying.get(host);
    if (here === undefined) this.lying.set(host, [{ company, from, to, assignment }]);
    else here.push({ company, from, to, assignment });
  }

  /** One for each host and pair of companies. What has begun is together as it is; planning anything to it is what counts. */
  bad(): BadCompany[] {
    const found: BadCompany[] = [];
    for (const [host, here] of this.lying) {
      const apart = pairsApart(this.problem, host);
      for (const [one, other] of apart) {
        const met = firstMeeting(here.filter(({ company }) => company === one), here.filter(({ company }) => company === other), one === other);
        if (met !== null) found.push({ hostId: host.slice(host.indexOf(' ') + 1), assignment: met, other });
      }
    }
    return found;
  }
}

/** Companies that must not meet at the host; both ways round, as only a planned thing of the first is looked at. */
function pairsApart({ companies = [], places }: PlanProblem, host: string): [string, string][] {
  const closeness = host.startsWith('freezer ') ? 'frozen' : (places.find(({ id }) => host === `place ${id}`)?.closeness ?? 'side-by-side');
  return companies.flatMap(({ id, notWith }) => (notWith[closeness] ?? []).flatMap((other): [string, string][] => (other === id ? [[id, id]] : [[id, other], [other, id]])));
}

/** A planned thing of the first that lies there while one of the others does. */
function firstMeeting(comers: readonly Lying[], others: readonly Lying[], alike: boolean): PlanAssignment | null {
  if (comers.length === 0 || others.length === 0) return null;
  const sorted = others.toSorted((a, b) => a.from - b.from);
  // The two that end last among the first k that begin: the one that is not the comer itself counts.
  const ends: [Lying, Lying | null][] = [];
  for (const one of sorted) {
    const [last, second] = ends.at(-1) ?? [one, null];
    ends.push(last === one ? [one, null] : one.to >= last.to ? [one, last] : second === null || one.to > second.to ? [last, one] : [last, second]);
  }
  for (const comer of comers) {
    if (comer.assignment === null) continue;
    const begun = countBefore(sorted, comer.to);
    if (begun === 0) continue;
    const [last, second] = ends[begun - 1]!;
    const other = alike && last === comer ? second : last;
    if (other !== null && other.to > comer.from) return comer.assignment;
  }
  return null;
}

/** How many begin before the slot. */
function countBefore(sorted: readonly Lying[], slot: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]!.from < slot) low = middle + 1;
    else high = middle;
  }
  return low;
}
