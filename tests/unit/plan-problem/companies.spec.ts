import { describe, expect, test } from '@jest/globals';
import { buildProblem, type InputItem } from '#application';
import { buildPlan, checkProblem, validatePlan } from '#planning';
import { careStep, FREEZE, HOUR, input, item, SEVEN } from './support/small-input.js';

type Asked = NonNullable<InputItem['company']>;

const CLEAN: Asked = { materialClass: 'textile-flat-small', apartFrom: [], hazards: [] };
const MOULDY: Asked = { ...CLEAN, apartFrom: [{ ruleId: 'apart.mould' }] };
const FLOODED: Asked = { ...CLEAN, apartFrom: [{ ruleId: 'apart.black-water' }] };
const BLEEDING: Asked = { ...CLEAN, apartFrom: [{ ruleId: 'apart.bleeding' }] };
const DRY_ONLY = { disposition: 'treat' as const, needs: 0, steps: [careStep('dry', { zone: 'clean', crew: 0, stabilises: true })] };
const RINSE_FIRST = { ...DRY_ONLY, steps: [careStep('rinse'), ...DRY_ONLY.steps] };

const thing = (id: string, company: Asked | undefined, change: Partial<InputItem> = {}) => item({ id, options: [DRY_ONLY], nextStep: 'dry', ...(company && { company }), ...change });
const problemOf = (items: InputItem[], arrangement: 'rack' | 'screen' = 'screen', places = ['one', 'two']) =>
  buildProblem(input({ items, places: places.map((id) => ({ id, roomId: 'room', areaDm2: 3000, arrangement })) }), { nowMs: SEVEN }).problem;

/** Pairs of things that dry in one place at one time. */
function together(items: InputItem[], arrangement: 'rack' | 'screen' = 'screen', places = ['one', 'two']): string[] {
  const problem = problemOf(items, arrangement, places);
  expect(checkProblem(problem)).toEqual([]);
  const plan = buildPlan(problem, { seed: 1, iterations: 50 });
  expect(validatePlan(problem, plan)).toEqual([]);
  const drying = plan.assignments.filter(({ step }) => step === 'dry');
  expect(drying.length).toBe(items.filter(({ stage }) => stage === 'waiting').length);
  return drying.flatMap((one) => drying.filter((other) => one.itemId < other.itemId && one.dryingPlaceId === other.dryingPlaceId && one.startSlot < other.endSlot && other.startSlot < one.endSlot).map((other) => `${one.itemId} ${other.itemId}`)).sort();
}

describe('what must not lie together goes into the problem', () => {
  test('mould and what is free of it dry in two places, each with its like', () => {
    expect(together([thing('a', CLEAN), thing('b', MOULDY), thing('c', CLEAN), thing('d', MOULDY)])).toEqual(['a c', 'b d']);
  });

  test('what is unrinsed keeps away from what is rinsed, unless it is rinsed before it is hung up', () => {
    expect(together([thing('a', CLEAN), thing('b', FLOODED)])).toEqual([]);
    expect(together([thing('a', CLEAN), thing('b', FLOODED, { options: [RINSE_FIRST], nextStep: 'rinse' })])).toEqual(['a b']);
    expect(together([thing('a', CLEAN), thing('b', FLOODED, { doneSteps: ['rinse'] })])).toEqual(['a b']);
  });

  test('a colour that moves keeps away where water drips from one onto the other, not where each has area of its own', () => {
    // There is one place: on the rack one waits for the other, on the screen they dry side by side.
    expect(together([thing('a', CLEAN), thing('b', BLEEDING)], 'rack', ['one'])).toEqual([]);
    expect(together([thing('a', CLEAN), thing('b', BLEEDING)], 'screen', ['one'])).toEqual(['a b']);
  });

  test('what hangs there already counts, by what was done to it', () => {
    const hanging = (company: Asked, change: Partial<InputItem> = {}) => thing('z', company, { stage: 'drying', keeper: { kind: 'drying-place', id: 'one' }, keeperSinceMs: SEVEN - HOUR, ...change });
    const placeOf = (items: InputItem[]) => buildPlan(problemOf(items), { seed: 1, iterations: 20 }).assignments.find(({ itemId, step }) => itemId === 'a' && step === 'dry')?.dryingPlaceId;
    expect(placeOf([thing('a', CLEAN), hanging(CLEAN)])).toBe('one');
    expect(placeOf([thing('a', CLEAN), hanging(MOULDY)])).toBe('two');
    expect(placeOf([thing('a', CLEAN), hanging(FLOODED)])).toBe('two');
    expect(placeOf([thing('a', CLEAN), hanging(FLOODED, { doneSteps: ['rinse'] })])).toBe('one');
  });

  test('a parcel shares the freezer, what lies in it unwrapped keeps mould out', () => {
    const lies = (company: Asked, doneSteps: InputItem['doneSteps']) => thing('z', company, { keeper: { kind: 'freezer', id: 'chest' }, stage: 'held-frozen', stabilisedAtMs: SEVEN - HOUR, doneSteps });
    const blockerOf = (items: InputItem[]) => buildPlan(problemOf(items), { seed: 1, iterations: 20 }).unplanned.find(({ itemId }) => itemId === 'a')?.blockedBy.kind;
    const comer = thing('a', MOULDY, { options: [FREEZE], nextStep: 'wrap' });
    const stations = input().stations.concat({ id: 'cold', siteId: 'hall', zone: 'cold', steps: ['freeze'], capacity: 1, openings: [] });
    const planned = (items: InputItem[]) => {
      const problem = buildProblem(input({ items, stations }), { nowMs: SEVEN }).problem;
      const plan = buildPlan(problem, { seed: 1, iterations: 20 });
      return plan.unplanned.find(({ itemId }) => itemId === 'a')?.blockedBy.kind ?? 'planned';
    };
    expect(planned([comer, lies(CLEAN, ['wrap'])])).toBe('planned');
    expect(planned([comer, lies(CLEAN, [])])).toBe('company');
    expect(blockerOf([comer])).not.toBe('company');
  });

  test('of what nothing is known nothing is asked', () => {
    const problem = problemOf([thing('a', undefined), thing('b', MOULDY)]);
    expect(problem.items.flatMap(({ id, options }) => options.flatMap(({ steps }) => steps.map(({ company }) => [id, company === undefined])))).toEqual([['a', true], ['b', false]]);
  });
});
