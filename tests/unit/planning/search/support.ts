import fc from 'fast-check';
import type { OneMachineJobs, Project } from '#planning';

/** A small project without circles: activity j precedes only higher ones; every mode fits by itself. */
export const projects = (modesAtMost: number): fc.Arbitrary<Project> => fc.record({
  capacity: fc.array(fc.integer({ min: 2, max: 6 }), { minLength: 2, maxLength: 2 }),
  activities: fc.array(fc.record({
    modes: fc.array(fc.record({ duration: fc.integer({ min: 0, max: 5 }), demand: fc.tuple(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 2 })), stock: fc.tuple(fc.integer({ min: 0, max: 3 })) }), { minLength: 1, maxLength: modesAtMost }),
    after: fc.array(fc.nat({ max: 20 }), { maxLength: 2 }),
  }), { minLength: 1, maxLength: 9 }),
}).map(({ capacity, activities }) => {
  const successors: number[][] = activities.map(() => []);
  activities.forEach(({ after }, j) => { for (const before of new Set(after.map((one) => one % Math.max(1, j)))) if (before < j) successors[before]!.push(j); });
  return { capacity, stock: [3 * activities.length], modes: activities.map(({ modes }) => modes), successors };
});

export const machineJobs = (withRelease: boolean, most = 7): fc.Arbitrary<OneMachineJobs> => fc.array(fc.record({
  r: fc.nat({ max: withRelease ? 12 : 0 }), p: fc.integer({ min: 1, max: 9 }), w: fc.nat({ max: 9 }), d: fc.nat({ max: 40 }),
}), { minLength: 1, maxLength: most }).map((list) => ({
  release: Int32Array.from(list, ({ r }) => r), duration: Int32Array.from(list, ({ p }) => p), weight: Int32Array.from(list, ({ w }) => w), due: Int32Array.from(list, ({ d }) => d),
}));

/** Every order of 0 .. count - 1. */
export function* ordersOf(count: number): Generator<number[]> {
  if (count === 0) { yield []; return; }
  for (const order of ordersOf(count - 1)) for (let at = 0; at < count; at += 1) yield order.toSpliced(at, 0, count - 1);
}
