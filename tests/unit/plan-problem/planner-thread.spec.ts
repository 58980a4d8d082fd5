import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from '@jest/globals';
import { bestPlan, buildPlan, strandSeed } from '#planning';
import { projectRoot } from '#platform';
import { salvageDay } from '../planning/support/day.builder.js';

/** The build runs as it does in production: Jest has no worker of its own for TypeScript. */
async function inTheBuild(script: string): Promise<string> {
  const { stdout } = await promisify(execFile)(process.execPath, ['--input-type=module', '-e', script], { cwd: projectRoot(), maxBuffer: 64 * 1024 * 1024 });
  return stdout;
}

const FROM_BUILD = `import { threadPlanner } from ${JSON.stringify(join(projectRoot(), 'dist/apps/worker/src/planner-thread.js'))};`;

test('the thread answers the plan that the planner makes in this thread', async () => {
  const problem = salvageDay(60, 3);
  const stdout = await inTheBuild(`${FROM_BUILD} const plan = await threadPlanner().plan(${JSON.stringify(problem)}, { seed: 5, iterations: 10 }); process.stdout.write(JSON.stringify(plan));`);
  expect(JSON.parse(stdout)).toEqual(buildPlan(problem, { seed: 5, iterations: 10 }));
});

test('a problem that is refused is refused with its faults on this side of the thread too', async () => {
  const problem = { ...salvageDay(3, 3), horizonSlots: 0 };
  const stdout = await inTheBuild(`${FROM_BUILD} try { await threadPlanner().plan(${JSON.stringify(problem)}, { seed: 5, iterations: 0 }); } catch (error) { process.stdout.write(JSON.stringify([error.name, error.faults[0].path])); }`);
  expect(JSON.parse(stdout)).toEqual(['MalformedPlanProblem', 'horizonSlots']);
});

test('a plan that takes too long is given up and its thread ends', async () => {
  const stdout = await inTheBuild(`${FROM_BUILD} try { await threadPlanner({ timeoutMs: 300 }).plan(${JSON.stringify(salvageDay(60, 3))}, { seed: 5, iterations: 1000000000 }); } catch (error) { process.stdout.write(error.message); }`);
  expect(stdout).toBe('the plan took longer than 300 ms');
});

test('how many rounds are done is told while the thread works, and the plan is the same', async () => {
  const problem = salvageDay(20, 3);
  const stdout = await inTheBuild(`${FROM_BUILD} const told = []; const plan = await threadPlanner().plan(${JSON.stringify(problem)}, { seed: 5, iterations: 600, onProgress: (rounds) => told.push(rounds) }); process.stdout.write(JSON.stringify([told, plan]));`);
  const [told, plan] = JSON.parse(stdout);
  expect(told.length).toBeGreaterThan(0);
  expect(told).toEqual([...told].sort((a: number, b: number) => a - b));
  expect(told.at(-1)).toBeLessThanOrEqual(600);
  expect(plan).toEqual(buildPlan(problem, { seed: 5, iterations: 600 }));
});

test('the best of three strands is the same plan on one thread and on two, and the one that they make here', async () => {
  const problem = salvageDay(60, 3);
  const stdout = await inTheBuild(`${FROM_BUILD} const plans = []; for (const threads of [1, 2]) plans.push(await threadPlanner({ strands: 3, threads }).plan(${JSON.stringify(problem)}, { seed: 5, iterations: 30 })); process.stdout.write(JSON.stringify(plans));`);
  const [one, two] = JSON.parse(stdout);
  expect(two).toEqual(one);
  expect(one).toEqual(bestPlan([0, 1, 2].map((strand) => buildPlan(problem, { seed: strandSeed(5, strand), iterations: 30 }))));
});

test('the rounds told of several strands rise to those of the plan', async () => {
  const stdout = await inTheBuild(`${FROM_BUILD} const told = []; const plan = await threadPlanner({ strands: 2 }).plan(${JSON.stringify(salvageDay(20, 3))}, { seed: 5, iterations: 600, onProgress: (rounds) => told.push(rounds) }); process.stdout.write(JSON.stringify([told, plan.iterations]));`);
  const [told, rounds] = JSON.parse(stdout);
  expect(told).toEqual([...told].sort((a: number, b: number) => a - b));
  expect(told.at(-1)).toBe(rounds);
});

test('a time limit ends the search before its rounds are done, and the plan names the rounds that make it again', async () => {
  const problem = salvageDay(60, 3);
  const stdout = await inTheBuild(`${FROM_BUILD} process.stdout.write(JSON.stringify(await threadPlanner({ milliseconds: 200 }).plan(${JSON.stringify(problem)}, { seed: 5, iterations: 1000000000 })));`);
  const plan = JSON.parse(stdout);
  expect(plan.iterations).toBeLessThan(1_000_000_000);
  expect(plan.iterations).toBeGreaterThan(0);
  expect(buildPlan(problem, { seed: plan.seed, iterations: plan.iterations })).toEqual(plan);
});

test('a time limit that is not reached leaves the plan of the rounds as it is', async () => {
  const problem = salvageDay(20, 3);
  const stdout = await inTheBuild(`${FROM_BUILD} process.stdout.write(JSON.stringify(await threadPlanner({ milliseconds: 3600000 }).plan(${JSON.stringify(problem)}, { seed: 5, iterations: 20 })));`);
  expect(JSON.parse(stdout)).toEqual(buildPlan(problem, { seed: 5, iterations: 20 }));
});

test('when the process will not wait, all strands end in the middle of their work and the plan is refused', async () => {
  const stdout = await inTheBuild(`${FROM_BUILD} const stopping = new AbortController(); setTimeout(() => stopping.abort(new Error('The worker stops.')), 500); const beganMs = performance.now(); try { await threadPlanner({ strands: 2, signal: stopping.signal }).plan(${JSON.stringify(salvageDay(60, 3))}, { seed: 5, iterations: 1000000000 }); } catch (error) { process.stdout.write(JSON.stringify([error.message, performance.now() - beganMs])); }`);
  const [message, tookMs] = JSON.parse(stdout);
  expect(message).toBe('The worker stops.');
  expect(tookMs).toBeLessThan(20_000);
});

test('while it plans, the process that asked goes on answering', async () => {
  const stdout = await inTheBuild(`${FROM_BUILD} let ticks = 0; const timer = setInterval(() => { ticks += 1; }, 20); await threadPlanner({ milliseconds: 1000 }).plan(${JSON.stringify(salvageDay(60, 3))}, { seed: 5, iterations: 1000000000 }); clearInterval(timer); process.stdout.write(String(ticks));`);
  expect(Number(stdout)).toBeGreaterThan(5);
});
