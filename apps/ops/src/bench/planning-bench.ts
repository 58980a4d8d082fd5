/**
 * What a plan costs on synthetic incidents, in passes of the planner over the same incident (T_g: one order of offers, no improvement),
 * and how far it stays from the bound. One process, processor time, no server; the best of some rounds, because other work only adds.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { serialize } from 'node:v8';
import { buildPlan, movedSteps, PLANNER_HEAP, type Plan, type PlanProblem, validatePlan } from '#planning';
import { adoptPlan, applyEvent, generateIncident, startWork } from '#testing/salvage';
import { gapLines } from './planning-gaps.js';
import { type PlanningBenchOptions, readPlanningOptions } from './planning-options.js';

const ROUNDS = 3;
const PLAN_SEED = 1;
const LARGER = 5;
const IMPROVEMENTS = 2_000;
/** The first morning, half past nine: work has begun, most is still to come. */
const EVENT_HOUR = 9.5;
const ARRIVING = 10;

/** Lines of the report, as they are known. Arguments: see `readPlanningOptions`. */
export function benchPlanning(args: string[], print: (line: string) => void): void {
  const options = readPlanningOptions(args);
  for (const seed of options.seeds) {
    print(`own problem, preset base, ${options.items} items, seed ${seed}:`);
    const { problem } = generateIncident({ preset: 'base', items: options.items, seed });
    for (const line of ratioLines(problem, options, seed)) print(`  ${line}`);
  }
  for (const preset of options.gaps) for (const seed of options.seeds) for (const line of gapLines(preset, seed, options)) print(line);
}

function* ratioLines(problem: PlanProblem, options: PlanningBenchOptions, seed: number): Generator<string> {
  // The first plan of a process pays for compiling the planner.
  buildPlan(problem, { seed: PLAN_SEED, iterations: 0 });
  const pass = costOf(problem, { orders: 1 });
  yield* costLines(problem, pass);
  yield eventLine(problem, pass);
  yield* sizeLines(options, seed, pass);
}

function costOf(problem: PlanProblem, budget: { orders?: number; iterations?: number }): { ms: number; plan: Plan } {
  const plans: Plan[] = [];
  const ms = bestMs(ROUNDS, () => plans.splice(0, 1, buildPlan(problem, { seed: PLAN_SEED, iterations: 0, ...budget })));
  const [plan] = plans;
  if (plan === undefined) throw new Error('nothing was planned');
  return { ms, plan };
}

function* costLines(problem: PlanProblem, pass: { ms: number }): Generator<string> {
  const operations = problem.items.reduce((sum, { options }) => sum + (options[0]?.steps.length ?? 0), 0);
  yield `one pass (T_g, with check and compilation): ${pass.ms.toFixed(0)} ms for ${operations} operations`;
  const cold = costOf(problem, {});
  yield `cold plan, all orders of offers: ${(cold.ms / pass.ms).toFixed(2)} T_g (${cold.ms.toFixed(0)} ms)`;
  const longer = bestMs(1, () => buildPlan(problem, { seed: PLAN_SEED, iterations: IMPROVEMENTS }));
  const improvement = (longer - cold.ms) / IMPROVEMENTS;
  yield `one round of ruin and recreate: T_g / ${(pass.ms / improvement).toFixed(0)} (${(1_000 * improvement).toFixed(0)} microseconds)`;
  const faults = validatePlan(problem, cold.plan);
  if (faults.length > 0) throw new Error(`the plan breaks ${faults.length} rules, the first: ${faults[0]?.text}`);
  const validation = bestMs(ROUNDS, () => validatePlan(problem, cold.plan));
  yield `full validation: ${(validation / pass.ms).toFixed(2)} T_g (${validation.toFixed(0)} ms)`;
}

/** Ten items arrive while the plan is worked off; everything else goes as planned. */
function eventLine(problem: PlanProblem, pass: { ms: number; plan: Plan }): string {
  const atSlot = Math.round((EVENT_HOUR * 60) / problem.slotMinutes);
  const items = problem.items.slice(0, ARRIVING).map((item, i) => ({ ...item, id: `late-${i + 1}`, releaseSlot: atSlot, deadlineSlot: atSlot + item.deadlineSlot - item.releaseSlot }));
  const after = applyEvent(adoptPlan(startWork(problem), pass.plan), { kind: 'items-arrive', atSlot, items }).problem;
  const again = costOf(after, {});
  const { totalSteps, movedSteps: moved } = movedSteps(after, again.plan);
  return `event re-plan, ${items.length} more items: ${(again.ms / pass.ms).toFixed(2)} T_g (${again.ms.toFixed(0)} ms); ${moved} of ${totalSteps} steps of the next 8 h move (${percent(moved, totalSteps)} %)`;
}

function* sizeLines({ items }: PlanningBenchOptions, seed: number, pass: { ms: number }): Generator<string> {
  const { problem } = generateIncident({ preset: 'base', items: LARGER * items, seed });
  const large = bestMs(ROUNDS - 1, () => buildPlan(problem, { seed: PLAN_SEED, iterations: 0, orders: 1 }));
  yield `${LARGER * items} items against ${items}, one pass: ${(large / pass.ms).toFixed(2)} times (${large.toFixed(0)} ms)`;
  yield* memoryLines(problem);
}

/** Measured in a process that imports the planner alone, with the heap of a planner's thread; the problem comes to it as a file, as it comes to the thread as a message. */
function* memoryLines(problem: PlanProblem): Generator<string> {
  const folder = mkdtempSync(join(tmpdir(), 'wrackline-bench-'));
  try {
    const file = join(folder, 'problem.bin');
    writeFileSync(file, serialize(problem));
    for (const rounds of [0, IMPROVEMENTS]) yield `memory for ${problem.items.length} items, ${rounds} rounds: ${memoryOf(file, rounds)}`;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function memoryOf(file: string, rounds: number): string {
  // A third of the young space is the half of it that is in use.
  const heap = [`--max-old-space-size=${PLANNER_HEAP.oldMb}`, `--max-semi-space-size=${PLANNER_HEAP.youngMb / 3}`];
  const child = spawnSync(process.execPath, ['--expose-gc', ...heap, fileURLToPath(new URL('./planning-memory.js', import.meta.url)), file, String(rounds)], { encoding: 'utf8' });
  if (child.status !== 0) throw new Error(`the memory of the planner was not measured: ${child.stderr}`);
  const { emptyMb = 0, readingMb = 0, problemMb = 0, peakMb = 0, liveMb = 0 } = JSON.parse(child.stdout) as Record<string, number>;
  return `${(peakMb - emptyMb).toFixed(0)} MB above the empty process at the most (empty ${emptyMb.toFixed(0)} MB; while the problem was read ${readingMb.toFixed(0)} MB, then ${problemMb.toFixed(0)} MB; problem and plan alive afterwards ${liveMb.toFixed(0)} MB)`;
}

/** Milliseconds of processor, the best of some rounds. */
function bestMs(rounds: number, work: () => unknown): number {
  return Math.min(...Array.from({ length: rounds }, () => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1_000;
  }));
}

function percent(part: number, whole: number): string {
  return (whole === 0 ? 0 : (100 * part) / whole).toFixed(2);
}
