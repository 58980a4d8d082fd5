import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { render } from '#care';
import { buildPlan, type PlanItem, type PlanProblem, whyBefore } from '#planning';
import { randomProblem } from './support/random-problem.arbitrary.js';
import { freeze, item, smallProblem } from './support/small.builder.js';

const planOf = (problem: PlanProblem) => buildPlan(problem, { seed: 1, iterations: 0 });
function why(a: Partial<PlanItem>, b: Partial<PlanItem>, change = (_: PlanProblem) => undefined as void) {
  const problem = smallProblem([item('a', a), item('b', b)]);
  change(problem);
  return whyBefore(problem, planOf(problem), 'a', 'b');
}
const kinds = ({ reasons }: ReturnType<typeof whyBefore>) => reasons.map(({ kind }) => kind);

describe('why one before the other', () => {
  test('names what both need, and what speaks for the first', () => {
    const found = why({ weight: 9, deadlineSlot: 8 }, {});
    expect(found).toMatchObject({ firstItemId: 'a', secondItemId: 'b' });
    expect(found.reasons).toEqual([
      { kind: 'shared', resource: { kind: 'station', id: 'tub' }, firstUntilSlot: 2, secondFromSlot: 2 }, { kind: 'due-sooner', slots: 12 }, { kind: 'heavier', firstWeight: 9, secondWeight: 5 },
    ]);
    expect(found.text.map((message) => render(message, 'en'))).toEqual([
      'a begins at slot 0 of the plan, b at slot 2 of the plan.', 'Both need station tub: a until slot 2 of the plan, b from slot 2 of the plan on.', 'a is due 12 slots sooner.', 'a weighs more in the plan: 9 to 5.',
    ]);
    expect(found.text.map((message) => render(message, 'es'))).toEqual([
      'a empieza en el intervalo 0 del plan; b, en el intervalo 2 del plan.', 'Los dos necesitan el puesto tub: a hasta el intervalo 2 del plan, b desde el intervalo 2 del plan.', 'a vence 12 intervalos antes.', 'a pesa más en el plan: 9 frente a 5.',
    ]);
  });

  test('is told from the side of the one that comes first, whichever was asked about', () => {
    const problem = smallProblem([item('a'), item('b', { weight: 50, deadlineSlot: 4 })]);
    expect(whyBefore(problem, planOf(problem), 'a', 'b')).toEqual(whyBefore(problem, planOf(problem), 'b', 'a'));
    expect(whyBefore(problem, planOf(problem), 'a', 'b').firstItemId).toBe('b');
  });

  test('says what speaks against it, too', () => {
    const plan = planOf(smallProblem([item('a'), item('b')]));
    const whyWith = (a: Partial<PlanItem>, b: Partial<PlanItem>) => kinds(whyBefore(smallProblem([item('a', a), item('b', b)]), plan, 'a', 'b'));
    expect(whyWith({ weight: 2, deadlineSlot: 4 }, { weight: 9 })).toEqual(['shared', 'due-sooner', 'although-heavier']);
    expect(whyWith({ weight: 9 }, { weight: 2, deadlineSlot: 4 })).toEqual(['shared', 'heavier', 'although-due-sooner']);
    expect(whyWith({ weight: 2 }, { weight: 9, deadlineSlot: 4 })).toEqual(['shared', 'although-due-sooner', 'although-heavier', 'search']);
  });

  test('is a wish of a coordinator where there is one', () => {
    const plain = planOf(smallProblem([item('a'), item('b')]));
    expect(kinds(whyBefore(smallProblem([item('a', { first: true, weight: 1 }), item('b')]), plain, 'a', 'b'))).toEqual(['asked-first', 'shared', 'although-heavier']);
    const pinned = smallProblem([item('a'), item('b')]);
    const plan = planOf(pinned);
    pinned.items[1]!.pinned = plan.assignments.filter(({ itemId }) => itemId === 'b');
    expect(kinds(whyBefore(pinned, plan, 'a', 'b'))).toContain('pinned');
  });

  test('is that the other has no place', () => {
    const found = why({}, { deadlineSlot: 0 });
    expect(found.reasons).toEqual([{ kind: 'not-planned', blockedBy: { kind: 'time', what: '' } }]);
    expect(found.text.map((message) => render(message, 'en'))).toEqual(['a begins at slot 0 of the plan; b is not in the plan.', 'b has no place: its deadline leaves too little time even with everything free.']);
  });

  test('is that the other was not there yet', () => {
    expect(why({}, { releaseSlot: 9, deadlineSlot: 30 }).reasons).toEqual([{ kind: 'not-there-yet', fromSlot: 9 }]);
  });

  test('is that the other is safe already', () => {
    expect(kinds(why({}, { stabilised: true, weight: 99 }))).toEqual(['shared', 'safe-already']);
  });

  test('is nothing where they share nothing', () => {
    const skilled = { ...freeze, steps: [{ ...freeze.steps[0]!, skill: 'freezer-wrapping' as const }] };
    const problem = smallProblem([item('a'), item('b', { options: [skilled] })]);
    problem.people[1]!.shifts = [{ from: 3, to: 40 }];
    expect(kinds(whyBefore(problem, planOf(problem), 'a', 'b'))).toEqual(['nothing-shared']);
  });

  test('has no answer where neither is planned or both begin together', () => {
    const neither = why({ deadlineSlot: 0 }, { deadlineSlot: 0 });
    expect(neither).toMatchObject({ firstItemId: null, secondItemId: null, reasons: [] });
    expect(render(neither.text[0]!, 'en')).toBe('Neither a nor b is in the plan.');
    const both = smallProblem([item('a'), item('b', { options: [freeze] })]);
    expect(render(whyBefore(both, planOf(both), 'a', 'b').text[0]!, 'en')).toBe('a and b both begin at slot 0 of the plan.');
  });

  test('is refused for an item that is not there, or is the same', () => {
    const problem = smallProblem([item('a')]);
    expect(() => whyBefore(problem, planOf(problem), 'a', 'x')).toThrow(RangeError);
    expect(() => whyBefore(problem, planOf(problem), 'a', 'a')).toThrow(RangeError);
  });

  test('of any two items of any plan agrees with the plan, and can be said in both languages', () => {
    fc.assert(fc.property(randomProblem(8), fc.nat(), (problem, seed) => {
      const plan = buildPlan(problem, { seed, iterations: 10 });
      const startOf = (id: string) => Math.min(...plan.assignments.filter(({ itemId }) => itemId === id).map(({ startSlot }) => startSlot));
      problem.items.slice(1).forEach(({ id }, i) => {
        const found = whyBefore(problem, plan, problem.items[i]!.id, id);
        if (found.firstItemId === null) expect(startOf(problem.items[i]!.id)).toBe(startOf(id));
        else expect(startOf(found.firstItemId)).toBeLessThan(startOf(found.secondItemId!));
        if (found.firstItemId !== null) expect(found.reasons.length).toBeGreaterThan(0);
        for (const language of ['en', 'es'] as const) expect(found.text.map((message) => render(message, language)).join(' ')).not.toMatch(/[{}]/);
      });
    }), { numRuns: 100 });
  });
});
