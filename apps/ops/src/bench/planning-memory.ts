/** A process of its own: reads a planning problem, plans it once, and prints how much memory that took, in MB. Needs `--expose-gc`. */
import { readFileSync } from 'node:fs';
import { deserialize } from 'node:v8';
import { buildPlan, type PlanProblem } from '#planning';

const MB = 1_048_576;
const rssMb = (): number => process.memoryUsage().rss / MB;
const collect = (): void => (globalThis as { gc?: () => void }).gc?.();

collect();
const emptyMb = rssMb();
const problem = deserialize(readFileSync(process.argv[2] ?? '')) as PlanProblem;
collect();
const [problemMb, readingMb] = [rssMb(), process.resourceUsage().maxRSS / 1_024];
const plan = buildPlan(problem, { seed: 1, iterations: 0 });
// Kilobytes, since the start of the process.
const peakMb = process.resourceUsage().maxRSS / 1_024;
collect();
const { heapUsed, external } = process.memoryUsage();
process.stdout.write(JSON.stringify({ emptyMb, readingMb, problemMb, peakMb, liveMb: (heapUsed + external) / MB, planned: plan.assignments.length }));
