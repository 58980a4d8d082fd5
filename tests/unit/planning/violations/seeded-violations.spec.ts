import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildPlan, checkProblem, validatePlan, type Plan, type PlanAssignment, type PlanProblem, type PlanStep } from '#planning';
import { randomProblem } from '../support/random-problem.arbitrary.js';
import { SEEDED_VIOLATIONS } from './seed-violation.js';

const INSTANCES = 2_000;
/** A kind that is hardly ever met has not been tested. */
const LEAST_MET = 50;
const LEAST_PLANNED = 30;

interface Sample { problem: PlanProblem; plan: Plan; choices: number[] }

/** Whether some step in the plan is so. */
function planned(is: (step: PlanStep, assignment: PlanAssignment) => boolean): (problem: PlanProblem, plan: Plan) => boolean {
  return ({ items }, { assignments }) => assignments.some((one) => is(items.find(({ id }) => id === one.itemId)!.options[one.option]!.steps[one.position]!, one));
}

/** What plans have to hold before it means anything that the validator accepts them. */
const FEATURES: [name: string, has: (problem: PlanProblem, plan: Plan) => boolean][] = [
  ['a bath that is shared', (_, { assignments }) => assignments.some((a, i) => a.batchId !== null && assignments.findIndex(({ batchId }) => batchId === a.batchId) < i)],
  ['a thaw', planned(({ step }) => step === 'thaw')],
  ['a thing put into a freezer in passing', planned(({ durationSlots }) => durationSlots === 0)],
  ['a least stay in a freezer', planned(({ freezer }) => freezer?.leastSlots !== undefined)],
  ['a way to the other site', planned(({ step }) => step === 'carry')],
  ['a specialist', planned(({ step, services }) => step !== 'carry' && services !== undefined)],
  ['a load that falls', planned(({ drying }) => drying?.falling !== undefined)],
  ['a station that is ruled out', planned(({ barredStationIds }) => barredStationIds !== undefined)],
  ['a step that may not begin late', planned(({ notAfterSlot }) => notAfterSlot !== undefined)],
  ['a pin that is kept', ({ items }, { assignments }) => items.some(({ id, pinned }) => pinned !== undefined && assignments.some(({ itemId }) => itemId === id))],
  ['a pin that cannot be kept', (_, { unplanned }) => unplanned.some(({ blockedBy }) => blockedBy.kind === 'pin')],
  ['an item to be offered first', ({ items }, { assignments }) => items.some(({ id, first }) => first === true && assignments.some(({ itemId }) => itemId === id))],
  ['a plan in force that is changed', (_, { objective }) => objective[2] > 0],
  ['an item that is planned late', ({ late, items }, { objective, assignments }) => late === 'plan' && objective[0] > sum(items.filter(({ id, stabilised }) => !stabilised && !assignments.some(({ itemId }) => itemId === id)))],
  ['a load that falls of what has begun', ({ fixed }) => fixed.some(({ falling }) => falling !== undefined)],
];

function sum(items: readonly { weight: number }[]): number {
  return items.reduce((total, { weight }) => total + weight, 0);
}

describe(`over ${INSTANCES} random small problems with all features on, the validator`, () => {
  // Drawn anew in each run; the seed stands in every failure, so that it can be drawn again.
  const seed = Date.now() % 2 ** 31;
  const timesMet: string[] = [];
  let samples: Sample[] = [];
  /** Only a sound plan can be spoilt for certain; that all are sound is a test of its own. */
  let sound: Sample[] = [];

  beforeAll(() => {
    const drawn = fc.sample(fc.tuple(randomProblem(10), fc.array(fc.nat(999), { minLength: 4, maxLength: 4 })), { numRuns: INSTANCES, seed });
    samples = drawn.map(([problem, choices], i) => ({ problem, choices, plan: buildPlan(problem, { seed: i, iterations: 10 }) }));
    sound = samples.filter(({ problem, plan }) => validatePlan(problem, plan).length === 0);
  });

  afterAll(() => {
    process.stdout.write(`seeded violations, how often each kind was met: ${timesMet.join(', ')}\n`);
  });

  test('has sound problems before it', () => {
    const malformed = samples.map(({ problem }) => checkProblem(problem)).find((faults) => faults.length > 0);
    expect({ seed, malformed }).toEqual({ seed, malformed: undefined });
  });

  test('meets each feature of the model in plans often enough to have tested it', () => {
    const met = Object.fromEntries(FEATURES.map(([name, has]) => [name, sound.filter(({ problem, plan }) => has(problem, plan)).length]));
    expect({ seed, met, rare: Object.keys(met).filter((name) => met[name]! < LEAST_PLANNED) }).toMatchObject({ rare: [] });
  });

  test('accepts every plan of the planner', () => {
    const refused = samples.map(({ problem, plan }) => ({ problem, plan, found: validatePlan(problem, plan) })).find(({ found }) => found.length > 0);
    expect({ seed, refused }).toEqual({ seed, refused: undefined });
  });

  test.each(SEEDED_VIOLATIONS)('reports $rule wherever $how', ({ rule, spoil }) => {
    let met = 0;
    for (const { problem, plan: valid, choices } of sound) {
      const plan = structuredClone(valid);
      let choice = 0;
      if (!spoil({ problem, plan, pick: (list) => list[choices[choice++ % choices.length]! % list.length] })) continue;
      met += 1;
      const rules = new Set(validatePlan(problem, plan).map((violation) => violation.rule));
      if (!rules.has(rule)) expect({ seed, missed: rule, reported: [...rules], problem, plan }).toBeUndefined();
    }
    timesMet.push(`${rule} ${met}`);
    expect({ rule, seed, met, metOftenEnough: met >= LEAST_MET }).toMatchObject({ metOftenEnough: true });
  });
});
