import fc from 'fast-check';
import { Dice, type Shop } from '#planning';

/** A small shop of either objective; some operations take no time, a job may come back to a machine. */
export const shops = (jobsAtMost: number, stepsAtMost: number, operationsAtMost = 99): fc.Arbitrary<Shop> => fc.integer({ min: 1, max: 3 }).chain((machines) => fc.record({
  machines: fc.constant(machines),
  objective: fc.constantFrom('weightedTardiness' as const, 'makespan' as const),
  jobs: fc.array(fc.record({
    release: fc.nat({ max: 6 }), due: fc.nat({ max: 20 }), weight: fc.nat({ max: 4 }),
    operations: fc.array(fc.uniqueArray(fc.record({ machine: fc.nat({ max: machines - 1 }), duration: fc.nat({ max: 7 }) }), { minLength: 1, maxLength: 2, selector: ({ machine }) => machine }), { minLength: 1, maxLength: stepsAtMost }),
  }), { minLength: 1, maxLength: jobsAtMost }),
}).filter(({ jobs }) => jobs.reduce((sum, { operations }) => sum + operations.length, 0) <= operationsAtMost));

/** Seven jobs of five operations on five machines, hard to do in time: large enough for a search to go through all its phases. */
export function crowdedShop(seed: number): Shop {
  const dice = new Dice(seed);
  return {
    machines: 5, objective: 'weightedTardiness',
    jobs: Array.from({ length: 7 }, () => ({
      release: dice.below(10), due: 20 + dice.below(40), weight: 1 + dice.below(5),
      operations: Array.from({ length: 5 }, () => [{ machine: dice.below(5), duration: 1 + dice.below(12) }]),
    })),
  };
}

/** The best value of all plans: every order of taking the jobs' next operations, every choice; each starts as early as it may. */
export function leastShopValue({ machines, jobs, objective }: Shop): number {
  let least = Number.POSITIVE_INFINITY;
  const free = Array.from({ length: machines }, () => 0);
  const ready = jobs.map(({ release }) => release);
  const step = jobs.map(() => 0);
  const value = (): number => (objective === 'makespan' ? Math.max(...ready) : jobs.reduce((sum, { weight, due }, j) => sum + weight * Math.max(0, ready[j]! - due), 0));
  const extend = (left: number): void => {
    if (left === 0) least = Math.min(least, value());
    jobs.forEach(({ operations }, j) => {
      const choices = operations[step[j]!];
      if (choices === undefined) return;
      for (const { machine, duration } of choices) {
        const [wasFree, wasReady] = [free[machine]!, ready[j]!];
        free[machine] = ready[j] = Math.max(wasFree, wasReady) + duration;
        step[j]! += 1;
        extend(left - 1);
        step[j]! -= 1;
        free[machine] = wasFree;
        ready[j] = wasReady;
      }
    });
  };
  extend(jobs.reduce((sum, { operations }) => sum + operations.length, 0));
  return least;
}
