import { describe, expect, test } from '@jest/globals';
import { render } from '#care';
import { type Blocker, buildPlan, explainItem, type Interval, type PlanOption, type PlanProblem } from '#planning';
import { step } from './support/day.builder.js';
import { freeze, item, SLOTS, smallProblem } from './support/small.builder.js';

// What stands in the way of a thing that is assessed (1 slot), colour-tested (1 slot) and dried; our own rule (diagnose.ts).

const testAndDry: PlanOption = {
  disposition: 'treat',
  steps: [
    step('assess', { zone: 'dirty', skill: 'assessment' }),
    step('colour-test', { zone: 'dirty', skill: 'colour-testing' }),
    step('dry', { durationSlots: 10, crew: 0, drying: { areaDm2: 1, loadGPerSlot: 0 }, stabilises: 'start' }),
  ],
};

const day: Interval[] = [{ from: 0, to: SLOTS }];

interface Hall { assessors?: Interval[][]; testers?: Interval[][]; deadlineSlot?: number; options?: PlanOption[]; freezerVolumeCl?: number }

/** A hall with room for everything but hands. */
function hall({ assessors = [day], testers = [day], deadlineSlot = 6, options = [testAndDry], freezerVolumeCl = 50 }: Hall): PlanProblem {
  const people = (name: string, skill: 'assessment' | 'colour-testing', shifts: Interval[][]) => shifts.map((shift, i) => ({ id: `${name}-${i}`, siteId: 'hall', skills: [skill], restrictions: [], shifts: shift }));
  return smallProblem([item('a', { options, deadlineSlot })], {
    stations: [
      { id: 'table', siteId: 'hall', zone: 'dirty', steps: ['assess', 'colour-test'], capacity: 9, open: day },
      { id: 'wrap', siteId: 'hall', zone: 'cold', steps: ['freeze'], capacity: 1, open: day },
    ],
    people: [...people('assessor', 'assessment', assessors), ...people('tester', 'colour-testing', testers), { id: 'wrapper', siteId: 'hall', skills: ['freezer-wrapping'], restrictions: [], shifts: day }],
    freezers: [{ id: 'chest', siteId: 'hall', volumeCl: freezerVolumeCl, open: day }],
  });
}

/** What stands in the way of the first route of the item, and what the plan lists. */
function blockers(problem: PlanProblem): { route: Blocker | null | undefined; listed: Blocker | undefined } {
  const plan = buildPlan(problem, { seed: 1, iterations: 0 });
  return { route: explainItem(problem, plan, 'a').passedOver[0]?.blockedBy, listed: plan.unplanned.find(({ itemId }) => itemId === 'a')?.blockedBy };
}

const crew = (what: string): Blocker => ({ kind: 'crew', what });

/** Things that a coordinator wants done before the item, which keep one person busy up to a slot. */
function crowd(problem: PlanProblem, kind: 'assess' | 'colour-test', count: number): PlanProblem {
  const skill = kind === 'assess' ? 'assessment' : 'colour-testing';
  const first = Array.from({ length: count }, (_, i) => item(`${kind}-${i}`, { weight: 100, deadlineSlot: SLOTS, first: true, options: [{ disposition: 'treat', steps: [step(kind, { zone: 'dirty', skill, stabilises: 'end' })] }] }));
  return { ...problem, items: [...problem.items, ...first] };
}

describe('the blocker of a thing that queues for more than one step', () => {
  test('is the testers who are missing, though it would queue a little for the assessor', () => {
    const problem = crowd(hall({ testers: [], options: [testAndDry, freeze], freezerVolumeCl: 0 }), 'assess', 2);
    expect(blockers(problem)).toEqual({ route: crew('colour-testing'), listed: crew('colour-testing') });
  });

  test('is the testers who are missing on a preferred route, though another route is taken', () => {
    const problem = crowd(hall({ testers: [], options: [testAndDry, freeze] }), 'assess', 2);
    expect(blockers(problem)).toEqual({ route: crew('colour-testing'), listed: undefined });
  });

  test('is the testers who have gone home when a short queue for the assessor is over', () => {
    const problem = crowd(hall({ testers: [[{ from: 0, to: 2 }]], deadlineSlot: 12 }), 'assess', 2);
    expect(blockers(problem).listed).toEqual(crew('colour-testing'));
  });

  test('is the longer of two queues, whichever comes first', () => {
    const both = (assess: number, colourTest: number) => blockers(crowd(crowd(hall({ deadlineSlot: 6 }), 'assess', assess), 'colour-test', colourTest)).listed;
    expect(both(2, 12)).toEqual(crew('colour-testing'));
    expect(both(12, 14)).toEqual(crew('assessment'));
  });

  test('is those of whom the item needs the larger share, when both are busy to the end', () => {
    const full = (assessors: Interval[][], testers: Interval[][]) => {
      const crowded = crowd(crowd(hall({ assessors, testers }), 'assess', assessors.length * SLOTS), 'colour-test', testers.length * SLOTS);
      return blockers(crowded).listed;
    };
    expect(full([day, day, day], [day])).toEqual(crew('colour-testing'));
    expect(full([day], [day, day, day])).toEqual(crew('assessment'));
  });

  test('is the queue that led into a closing, unless the closing is much longer than the queue', () => {
    const closed = (reopens: number) => blockers(crowd(hall({ testers: [[{ from: 0, to: 5 }, { from: reopens, to: SLOTS }]], deadlineSlot: 8 }), 'assess', 6)).listed;
    expect(closed(14)).toEqual(crew('assessment'));
    expect(closed(34)).toEqual(crew('colour-testing'));
  });

  test('is what is closed, when the item would be late even alone', () => {
    const problem = crowd(hall({ testers: [[{ from: 20, to: SLOTS }]], deadlineSlot: 10, options: [testAndDry, freeze], freezerVolumeCl: 0 }), 'assess', 8);
    expect(blockers(problem)).toEqual({ route: crew('colour-testing'), listed: crew('colour-testing') });
  });

  test('is time, when nothing is closed and the item would be late even alone', () => {
    expect(blockers(crowd(hall({ deadlineSlot: 1 }), 'assess', 8)).listed).toEqual({ kind: 'time', what: '' });
  });
});

describe('a lot that needs a larger drying place than the site has', () => {
  const lot = item('a', { options: [{ disposition: 'treat', steps: [step('dry', { durationSlots: 10, crew: 0, drying: { areaDm2: 9, loadGPerSlot: 1 }, stabilises: 'start' })] }] });
  const explain = (areasDm2: number[]) => {
    const problem = smallProblem([lot], { places: areasDm2.map((areaDm2, i) => ({ id: `rack-${i}`, roomId: 'loft', areaDm2, open: day })) });
    return explainItem(problem, buildPlan(problem, { seed: 1, iterations: 0 }), 'a');
  };

  test('is told that no place is large enough, and to split it or lay out a larger one, in both languages', () => {
    const { blockedBy, passedOver, text } = explain([8, 8]);
    expect(blockedBy).toEqual({ kind: 'drying-area', what: 'loft' });
    expect(passedOver).toEqual([{ disposition: 'treat', blockedBy, isTooLarge: true }]);
    for (const [language, says, advises] of [['en', 'no drying place on the site is large enough', 'split the lot, or lay out a larger place'], ['es', 'ningún lugar de secado del sitio es lo bastante grande', 'divida el lote o prepare un lugar más grande']] as const) {
      const sentences = text.map((message) => render(message, language));
      expect(sentences).toHaveLength(2);
      for (const sentence of sentences) {
        expect(sentence).toContain(says);
        expect(sentence).toContain(advises);
      }
    }
  });

  test('is not told so where one place is large enough, taken or not', () => {
    expect(explain([8, 9]).state).toBe('planned');
    const large = smallProblem([{ ...lot, weight: 1, deadlineSlot: 5 }, { ...lot, id: 'b', weight: 9, deadlineSlot: 5 }], { places: [{ id: 'rack', roomId: 'loft', areaDm2: 9, open: day }] });
    const waiting = explainItem(large, buildPlan(large, { seed: 1, iterations: 0 }), 'a');
    expect(waiting.passedOver).toEqual([{ disposition: 'treat', blockedBy: { kind: 'drying-area', what: 'loft' } }]);
    expect(waiting.text.map((message) => render(message, 'en')).join(' ')).not.toContain('large enough');
  });
});
