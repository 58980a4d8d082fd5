/** How loaded the resources of an incident are: work against what is there in the first six days. */
import type { Interval, PlanItem, PlanProblem } from '#planning';
import { isBath } from './routes.js';
import { LOADED, type Loaded } from './settings.js';

const LOAD_DAYS = 6;

/** Slots over which capacity counts for the load. */
export function loadSlots({ slotMinutes, horizonSlots }: Pick<PlanProblem, 'slotMinutes' | 'horizonSlots'>): number {
  return Math.min(horizonSlots, (LOAD_DAYS * 1440) / slotMinutes);
}

/** Work of the preferred routes, and of wrapping all that may be frozen, per resource: slots, person-slots, dm2-slots, grams. */
export function workOf(items: readonly PlanItem[]): Record<Loaded, number> {
  const work = Object.fromEntries(LOADED.map((name) => [name, 0])) as Record<Loaded, number>;
  const add = (name: string, amount: number): void => {
    if (name in work) work[name as Loaded] += amount;
  };
  for (const { options } of items) {
    const frozen = options.slice(1).find(({ disposition }) => disposition === 'hold-frozen')?.steps[0];
    for (const step of [...(options[0]?.steps ?? []), ...(frozen ? [frozen] : [])]) {
      if (step.drying) {
        const [half] = step.drying.falling ?? [];
        add('drying/area', step.drying.areaDm2 * step.durationSlots);
        add('drying/air', step.drying.loadGPerSlot * (half?.fromSlot ?? step.durationSlots) + (half ? half.loadGPerSlot * (step.durationSlots - half.fromSlot) : 0));
      } else {
        add(`station/${isBath(step.step) ? 'rinse' : step.step}`, step.durationSlots);
        if (step.skill) add(`crew/${step.skill}`, step.durationSlots * step.crew);
      }
    }
  }
  return work;
}

/** Work divided by the capacity of the first six days; null where there is work but nothing to do it. */
export function loadOf(problem: PlanProblem): Record<Loaded, number | null> {
  const until = loadSlots(problem);
  const work = workOf(problem.items);
  const available = (name: Loaded): number => {
    const [kind, what] = name.split('/');
    if (kind === 'station') return sum(problem.stations.filter(({ steps }) => steps.some((step) => step === what)).map(({ capacity, open }) => capacity * lengthBefore(open, until)));
    if (kind === 'crew') return sum(problem.people.filter(({ skills }) => skills.some((skill) => skill === what)).map(({ shifts }) => lengthBefore(shifts, until)));
    if (what === 'area') return sum(problem.places.map(({ areaDm2, open }) => areaDm2 * lengthBefore(open, until)));
    return sum(problem.rooms.flatMap(({ removalGPerSlot }) => removalGPerSlot.map((limit) => limit.limit * lengthBefore([limit], until))));
  };
  return Object.fromEntries(LOADED.map((name) => {
    const there = available(name);
    return [name, work[name] === 0 ? 0 : there === 0 ? null : work[name] / there];
  })) as Record<Loaded, number | null>;
}

/** Slots of the intervals before a slot. */
export function lengthBefore(intervals: readonly Interval[], until: number): number {
  return sum(intervals.map(({ from, to }) => Math.max(0, Math.min(to, until) - from)));
}

function sum(list: readonly number[]): number {
  return list.reduce((total, one) => total + one, 0);
}
