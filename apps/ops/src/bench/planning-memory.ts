/**
 * A process of its own, with the heap of a planner's thread: reads a planning problem, plans it, and prints how much memory that took, in MB.
 * Arguments: file of the problem, rounds of improvement. Needs `--expose-gc`.
 */
import { readFileSync } from 'node:fs';
import { deserialize } from 'node:v8';
import { buildPlan, type PlanProblem } from '#planning';

const MB = 1_048_576;
const rssMb = (): number => process.memoryUsage().rss / MB;
const collect = (): void => (globalThis as { gc?: () => void }).gc?.();
const [file = '', rounds = '0'] = process.argv.slice(2);

/** A function of its own, so that nothing holds the bytes of the file any longer. */
function read(): PlanProblem {
  return deserialize(readFileSync(file)) as PlanProblem;
}

collect();
const emptyMb = rssMb();
const problem = read();
collect();
const [problemMb, readingMb] = [rssMb(), process.resourceUsage().maxRSS / 1_024];
const plan = buildPlan(problem, { seed: 1, iterations: Number(rounds) });
// Kilobytes, since the start of the process.
const peakMb = process.resourceUsage().maxRSS / 1_024;
collect();
const { heapUsed, external } = process.memoryUsage();
process.stdout.write(JSON.stringify({ emptyMb, readingMb, problemMb, peakMb, liveMb: (heapUsed + external) / MB, planned: plan.assignments.length }));
