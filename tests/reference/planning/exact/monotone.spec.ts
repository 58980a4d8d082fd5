import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { savedWeightBound } from '#planning';
import { exactPlan } from './exact-plan.js';
import { MORE } from './more.js';
import { readOptima } from './compare.js';
import { tinyIncident } from './tiny-incidents.js';

const optima = readOptima();
const quick = optima.filter(({ nodes, late }) => nodes < 1_000 && late > 0).map(({ seed }) => seed);
const kinds = fc.constantFrom(...Object.keys(MORE));

describe('more of something', () => {
  test('never lowers the most that can be saved in a tiny incident, and sometimes raises it', () => {
    let raised = 0;
    fc.assert(fc.property(fc.constantFrom(...quick), kinds, (seed, kind) => {
      const problem = tinyIncident(seed);
      const { late } = optima[seed - 1]!;
      const { cost, proved } = exactPlan(MORE[kind]!(problem), { parts: 1, mostNodes: 20_000 });
      // A larger incident may be too large to be searched whole; what was found until then still counts when it is as good.
      if (!proved && cost[0] > late) return;
      expect(cost[0]).toBeLessThanOrEqual(late);
      if (cost[0] < late) raised += 1;
    }), { numRuns: 150, seed: 11 });
    expect(raised).toBeGreaterThan(10);
  });

  test('never lowers the bound when both are computed with the same prices, nor those without prices', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 100_000 }), kinds, (seed, kind) => {
      const problem = tinyIncident(seed);
      const more = savedWeightBound(MORE[kind]!(problem), { effort: 0.3 });
      const less = savedWeightBound(problem, { effort: 0.3, prices: more.prices === null ? [] : [more.prices] });
      expect(more.weight).toBeGreaterThanOrEqual(less.weight);
      for (const k of [0, 1]) expect(more.parts[k]!.weight).toBeGreaterThanOrEqual(less.parts[k]!.weight);
    }), { numRuns: 150 });
  });
});
