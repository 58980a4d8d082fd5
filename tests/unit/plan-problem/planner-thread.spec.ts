import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from '@jest/globals';
import { buildPlan } from '#planning';
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
