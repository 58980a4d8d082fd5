/** The bound over synthetic incidents of every regime: valid in each, and worth its name where something is scarce. */
import { describe, expect, test } from '@jest/globals';
import { buildPlan, type PlanProblem, savedWeightBound } from '#planning';
import { generateIncident, PRESET_NAMES, type PresetName } from '#testing/salvage';

const ROUNDS = 300;
const SIZES = [30, 60, 100];
const urgentWeight = ({ items }: PlanProblem): number => items.reduce((sum, { weight, stabilised }) => sum + (stabilised ? 0 : weight), 0);
const incident = (preset: PresetName, items: number, seed: number): PlanProblem => generateIncident({ preset, items, seed }).problem;

describe('the bound over synthetic incidents', () => {
  test.each(PRESET_NAMES.map((preset, k) => ({ preset, items: SIZES[k % SIZES.length]!, seed: k + 1 })))('$preset, $items items: is at least what a long plan saves', ({ preset, items, seed }) => {
    const problem = incident(preset, items, seed);
    const saved = urgentWeight(problem) - buildPlan(problem, { seed: 1, iterations: ROUNDS }).objective[0];
    expect(savedWeightBound(problem, { effort: 0.2 }).weight).toBeGreaterThanOrEqual(saved);
  });

  test('a stay in the freezer has its price: where baths are short the bound by prices lies far below what each thing alone could have', () => {
    const { name, weight, parts } = savedWeightBound(incident('bottleneck-bath', 400, 101));
    expect(name).toBe('prices');
    expect(weight).toBeLessThan(0.97 * parts[0]!.weight);
  });
});
