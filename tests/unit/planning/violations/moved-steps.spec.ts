import { describe, expect, test } from '@jest/globals';
import { movedSteps, type Plan, type PlanProblem, type PreviousStep } from '#planning';
import { sharedAndMoved } from './shared-and-moved.builder.js';

/** What the plan had been: as it is now, but for what the test changes. */
function before(change: (steps: PreviousStep[], problem: PlanProblem, plan: Plan) => void): ReturnType<typeof movedSteps> {
  const { problem, plan } = sharedAndMoved();
  const steps = plan.assignments.map(({ option: _, position: __, batchId: ___, ...was }) => was);
  problem.previous = { holdBeforeSlot: 0, steps };
  change(steps, problem, plan);
  return movedSteps(problem, plan);
}

const of = (steps: PreviousStep[], itemId: string, step: string): PreviousStep => steps.find((one) => one.itemId === itemId && one.step === step)!;

describe('what a new plan moves of the plan that people are working to', () => {
  test('is nothing when they are the same', () => {
    // Eight hours are 16 slots; all eight steps begin before that.
    expect(before(() => undefined)).toEqual({ totalSteps: 8, movedSteps: 0, meanShiftSlots: 0, withdrawnItemIds: [] });
  });

  test('is nothing when there was no plan', () => {
    expect(before((_, problem) => { delete problem.previous; })).toEqual({ totalSteps: 0, movedSteps: 0, meanShiftSlots: 0, withdrawnItemIds: [] });
  });

  test('counts a step at another time, at another station and no longer there', () => {
    const found = before((steps, problem, plan) => {
      of(steps, 'c', 'carry').startSlot = 8;
      of(steps, 'a', 'rinse').stationId = 'bench';
      plan.assignments = plan.assignments.filter(({ itemId }) => itemId !== 'b');
    });
    // The two steps of b have no new start, so four slots are the mean over six.
    expect(found).toEqual({ totalSteps: 8, movedSteps: 4, meanShiftSlots: 4 / 6, withdrawnItemIds: ['b'] });
  });

  test('looks at the next eight hours and at what has not begun', () => {
    expect(before((steps) => {
      of(steps, 'c', 'dry').startSlot = 16;
      of(steps, 'c', 'freeze').startSlot = -1;
    })).toMatchObject({ totalSteps: 6, movedSteps: 0 });
  });

  test('leaves out what has begun, what is no longer asked for and what has left', () => {
    expect(before((steps, problem) => {
      problem.fixed.push({ itemId: 'a', step: 'rinse', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: -1, to: 1 } });
      of(steps, 'b', 'rinse').step = 'blot';
      of(steps, 'c', 'thaw').itemId = 'gone';
    })).toMatchObject({ totalSteps: 5, movedSteps: 0, withdrawnItemIds: [] });
  });

  test('withdraws a promise also where the thing is planned late, but none for what is safe already', () => {
    expect(before((_, problem) => {
      problem.late = 'plan';
      problem.items[2]!.deadlineSlot = 4;
      problem.items[0]!.deadlineSlot = 0;
      problem.items[0]!.stabilised = true;
    })).toMatchObject({ withdrawnItemIds: ['c'] });
  });
});
