import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildProblem, summarise, type PlanInput } from '#application';
import { buildPlan, checkProblem, validatePlan } from '#planning';
import { anyRows, NOW_MS } from './support/rows.arbitrary.js';

const AWAY = new Set(['released', 'handed-back', 'referred-out']);

describe('any rows', () => {
  test('become a problem without a fault', () => {
    fc.assert(fc.property(anyRows, (rows) => {
      expect(checkProblem(buildProblem(rows, { nowMs: NOW_MS }).problem)).toEqual([]);
    }), { numRuns: 400 });
  });

  test('can be planned without a violation, and their weights add up', () => {
    fc.assert(fc.property(anyRows, (rows) => {
      const built = buildProblem(rows, { nowMs: NOW_MS, windowHours: 24, tailHours: 24 });
      const plan = buildPlan(built.problem, { seed: 1, iterations: 3 });
      expect(validatePlan(built.problem, plan)).toEqual([]);
      const { inTime, notInTime, late, lookOnly, blocked } = summarise(rows, built, plan);
      const clocked = built.problem.items.filter(({ id, stabilised }) => !stabilised || built.late.has(id));
      expect(inTime.items + notInTime.items).toBe(clocked.length + built.leftOut.length);
      const lost = blocked.reduce((sum, { weight }) => sum + weight, 0);
      expect(lost + late.weight + lookOnly.weight).toBe(notInTime.weight);
    }), { numRuns: 120 });
  });

  test('in another order become the same problem', () => {
    fc.assert(fc.property(anyRows, (rows) => {
      const turned: PlanInput = { ...rows, items: [...rows.items].reverse(), stations: [...rows.stations].reverse(), people: [...rows.people].reverse(), rooms: [...rows.rooms].reverse(), places: [...rows.places].reverse(), freezers: [...rows.freezers].reverse(), wishes: [...(rows.wishes ?? [])].reverse(), ...(rows.published && { published: [...rows.published].reverse() }) };
      expect(buildProblem(turned, { nowMs: NOW_MS })).toEqual(buildProblem(rows, { nowMs: NOW_MS }));
    }), { numRuns: 60 });
  });

  test('plan no step twice, no appointment, and nothing that something is missing for, except a look', () => {
    fc.assert(fc.property(anyRows, (rows) => {
      const live = rows.items.filter(({ stage }) => !AWAY.has(stage));
      const built = buildProblem({ ...rows, items: live }, { nowMs: NOW_MS });
      for (const item of built.problem.items) {
        const row = live.find(({ id }) => id === item.id)!;
        for (const { disposition, steps } of item.options) {
          expect(steps.filter(({ step }) => step === 'refer' || step === 'release' || step === 'hand-back')).toEqual([]);
          const offered = row.options.find((option) => option.disposition === disposition);
          if (built.lookOnly.has(item.id)) expect(steps.every(({ step }) => step === 'tag' || step === 'assess')).toBe(true);
          else expect(offered?.needs).toBe(0);
        }
      }
    }), { numRuns: 200 });
  });
});
