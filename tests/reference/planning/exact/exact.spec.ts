import { describe, expect, test } from '@jest/globals';
import { checkProblem, validatePlan } from '#planning';
import { compare, hasWishes, INCIDENTS, readOptima } from './compare.js';
import { asPlan, exactPlan } from './exact-plan.js';
import { featuresOf, tinyIncident } from './tiny-incidents.js';

/*
 * The optima in `optima.tsv` were proved by the exhaustive search of this folder (`node tests/reference/planning/exact/start.mjs`),
 * which shares no code with the planner. The limits for the gaps are our own measurement with a margin, not a published figure.
 */
const optima = readOptima();
const problems = new Map(optima.map(({ seed }) => [seed, tinyIncident(seed)]));
/** Those that take the search little time are proved anew each time. */
const quick = optima.filter(({ nodes, completion }) => nodes < 400 && completion !== null).slice(0, 60);

describe('tiny incidents with every feature', () => {
  test('there are 200, well formed, and each feature turns up in at least 20 of them', () => {
    expect(optima.map(({ seed }) => seed)).toEqual(Array.from({ length: INCIDENTS }, (_, k) => k + 1));
    const counts = new Map<string, number>();
    for (const problem of problems.values()) {
      expect(checkProblem(problem)).toEqual([]);
      for (const feature of featuresOf(problem)) counts.set(feature, (counts.get(feature) ?? 0) + 1);
    }
    expect(counts.size).toBe(27);
    expect([...counts].filter(([, count]) => count < 20)).toEqual([]);
  });

  test('the stored optima are those that the search proves, and its plans break no rule of the validator', () => {
    expect(quick).toHaveLength(60);
    for (const { seed, late, tardiness, completion } of quick) {
      const problem = problems.get(seed)!;
      const proved = exactPlan(problem, { parts: 3, mostNodes: 50_000 });
      expect({ seed, proved: proved.proved, cost: proved.cost }).toEqual({ seed, proved: true, cost: [late, tardiness, completion] });
      expect(validatePlan(problem, asPlan(problem, proved))).toEqual([]);
    }
  });
});

describe('planner and bound against the proved optima', () => {
  const compared = optima.map((optimum) => ({ optimum, wishes: hasWishes(problems.get(optimum.seed)!), ...compare(problems.get(optimum.seed)!) }));
  const savedAtBest = ({ urgent, optimum }: (typeof compared)[number]): number => urgent - optimum.late;

  test('no plan of the planner breaks a rule, and none is better than the optimum', () => {
    for (const { optimum: { seed, late, tardiness, completion }, planned, plan } of compared) {
      expect({ seed, violations: validatePlan(problems.get(seed)!, plan) }).toEqual({ seed, violations: [] });
      expect({ seed, late: Math.min(planned[0], late) }).toEqual({ seed, late });
      if (completion === null || planned[0] > late) continue;
      const better = planned[1] < tardiness! || (planned[1] === tardiness && planned[2] < completion);
      expect({ seed, better }).toEqual({ seed, better: false });
    }
  });

  test('the bound is never below the optimum, and is the optimum in at least 160 of the 200', () => {
    for (const one of compared) expect({ seed: one.optimum.seed, bound: Math.max(one.bound, savedAtBest(one)) }).toEqual({ seed: one.optimum.seed, bound: one.bound });
    expect(compared.filter((one) => one.bound === savedAtBest(one)).length).toBeGreaterThanOrEqual(160);
    const [bounds, best] = [compared.reduce((sum, { bound }) => sum + bound, 0), compared.reduce((sum, one) => sum + savedAtBest(one), 0)];
    expect(bounds / best).toBeLessThan(1.03);
  });

  test('where no coordinator has a wish of her own, 500 rounds save at least 99 % of what can be saved, and in no incident less than 80 %', () => {
    const free = compared.filter(({ wishes }) => !wishes);
    expect(free.length).toBeGreaterThan(100);
    const gaps = free.map((one) => (savedAtBest(one) === 0 ? 0 : (one.planned[0] - one.optimum.late) / savedAtBest(one)));
    expect(gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length).toBeLessThan(0.01);
    expect(Math.max(...gaps)).toBeLessThan(0.2);
  });

  test('where one has, that wish goes first: still at least 85 % of what could be saved without it', () => {
    const wished = compared.filter(({ wishes }) => wishes);
    expect(wished.length).toBeGreaterThan(20);
    const [saved, best] = [wished.reduce((sum, { urgent, planned }) => sum + urgent - planned[0], 0), wished.reduce((sum, one) => sum + savedAtBest(one), 0)];
    expect(saved / best).toBeGreaterThan(0.85);
  });
});
