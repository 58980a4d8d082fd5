import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { render } from '#care';
import { type Alternative, buildPlan, explainItem, type Plan, type PlanAssignment, type PlanProblem, validatePlan } from '#planning';
import { randomProblem } from './support/random-problem.arbitrary.js';
import { freeze, item, SLOTS, smallProblem, treat } from './support/small.builder.js';

const day = [{ from: 0, to: SLOTS }];
const planned = (itemId: string, position: number, startSlot: number, where: Partial<PlanAssignment>): PlanAssignment => ({
  itemId, option: 0, position, step: treat.steps[position]!.step, disposition: 'treat', batchId: null, stationId: null, personIds: [], dryingPlaceId: null, freezerId: null, startSlot, endSlot: startSlot + treat.steps[position]!.durationSlots, ...where,
});
const route = (id: string, from: number, tub: string, rack: string): PlanAssignment[] => [
  planned(id, 0, from, { stationId: tub, personIds: ['ada'] }), planned(id, 1, from + 2, { dryingPlaceId: rack }), planned(id, 2, from + 12, { stationId: 'bench' }),
];
const planOf = (...assignments: PlanAssignment[]): Plan => ({ seed: 1, iterations: 0, objective: [0, 0, 0, 0], unplanned: [], assignments });
const tub = (id: string, overrides = {}) => ({ id, siteId: 'hall', zone: 'dirty' as const, steps: ['rinse' as const], capacity: 1, open: day, ...overrides });
const rack = (id: string, overrides = {}) => ({ id, roomId: 'loft', areaDm2: 8, open: day, ...overrides });

function alternativesAt(problem: PlanProblem, plan: Plan, position: number): Record<string, Alternative['because']> {
  const { alternatives } = explainItem(problem, plan, 'a').steps[position]!;
  return Object.fromEntries(alternatives.map(({ id, because }) => [id, because]));
}

describe('why there', () => {
  test('each other station of the site says why it did not serve', () => {
    const problem = smallProblem([item('a'), item('b')]);
    problem.stations = [...problem.stations, tub('busy'), tub('shut', { open: [{ from: 1, to: SLOTS }] }), tub('idle'), tub('far', { siteId: 'school' }), tub('clean', { zone: 'clean' })];
    problem.people.push({ ...problem.people[0]!, id: 'dee' });
    const others = route('b', 0, 'busy', 'rack').map((one) => (one.position === 0 ? { ...one, personIds: ['dee'] } : one));
    expect(alternativesAt(problem, planOf(...route('a', 0, 'tub', 'rack'), ...others), 0)).toEqual({ busy: 'in-use', idle: 'free', shut: 'closed' });
  });

  test('a station that a lead has ruled out is named as such', () => {
    const options = [{ ...treat, steps: treat.steps.map((step, i) => (i === 0 ? { ...step, barredStationIds: ['idle'] } : step)) }];
    const problem = smallProblem([item('a', { options })]);
    problem.stations.push(tub('idle'));
    expect(alternativesAt(problem, planOf(...route('a', 0, 'tub', 'rack')), 0)).toEqual({ idle: 'barred' });
  });

  test('drying places are too small, closed, taken, in air that takes no more, or free', () => {
    const problem = smallProblem([item('a'), item('b', { options: [{ ...treat, steps: treat.steps.map((step) => (step.drying ? { ...step, drying: { areaDm2: 6, loadGPerSlot: 1 } } : step)) }] })]);
    problem.rooms.push({ id: 'cellar', siteId: 'hall', removalGPerSlot: [{ from: 0, to: SLOTS, limit: 4 }] }, { id: 'attic', siteId: 'hall', removalGPerSlot: [{ from: 0, to: SLOTS, limit: 5 }] });
    problem.places.push(rack('small', { areaDm2: 3 }), rack('shut', { open: [{ from: 0, to: 5 }] }), rack('taken'), rack('damp', { roomId: 'cellar' }), rack('dry', { roomId: 'attic' }));
    const plan = planOf(...route('a', 0, 'tub', 'rack'), ...route('b', 2, 'tub', 'taken'));
    expect(alternativesAt(problem, plan, 1)).toEqual({ damp: 'room-air', dry: 'free', shut: 'closed', small: 'too-small', taken: 'in-use' });
  });

  test('freezers are looked at for the whole stay', () => {
    const problem = smallProblem([item('a', { options: [freeze] }), item('b', { options: [freeze] })]);
    problem.freezers.push({ id: 'late', siteId: 'hall', volumeCl: 99, open: [{ from: 0, to: 30 }] }, { id: 'full', siteId: 'hall', volumeCl: 40, open: day });
    const frozen = (id: string, startSlot: number, freezerId: string): PlanAssignment => ({ ...planned(id, 0, startSlot, { stationId: 'wrap', personIds: ['bo'], freezerId }), step: 'freeze', disposition: 'hold-frozen', endSlot: startSlot + 1 });
    expect(alternativesAt(problem, planOf(frozen('a', 0, 'chest'), frozen('b', 20, 'full')), 0)).toEqual({ full: 'in-use', late: 'closed' });
  });

  test('is said in words, in both languages, with few names', () => {
    const problem = smallProblem([item('a')]);
    problem.stations.push(...['t1', 't2', 't3', 't4', 't5', 't6'].map((id) => tub(id)));
    const { text } = explainItem(problem, planOf(...route('a', 0, 'tub', 'rack')), 'a');
    expect(render(text[0]!, 'en')).toBe('For “rinse” these would do as well at that time: t1, t2, t3, t4 (+2).');
    expect(render(text[0]!, 'es')).toBe('Para «enjuagar» también servirían a esa hora: t1, t2, t3, t4 (+2).');
  });

  test('what is called free really serves: for any plan, the step moved there leaves it sound', () => {
    fc.assert(fc.property(randomProblem(8), fc.nat(), (problem, seed) => {
      const plan = buildPlan(problem, { seed, iterations: 10 });
      for (const { itemId, position } of plan.assignments.slice(0, 6)) {
        const step = explainItem(problem, plan, itemId).steps.find((one) => one.position === position)!;
        for (const { kind, id, because } of step.alternatives) {
          const moved = plan.assignments.map((one) => (one.itemId !== itemId || one.position !== position ? one : { ...one, ...(kind === 'station' ? { stationId: id } : kind === 'freezer' ? { freezerId: id } : { dryingPlaceId: id }) }));
          const isBatch = plan.assignments.some((one) => one.itemId === itemId && one.position === position && (one.batchId ?? null) !== null);
          if (isBatch) continue;
          const broken = validatePlan(problem, { ...plan, assignments: moved }).filter(({ rule }) => rule !== 'objective' && rule !== 'pin');
          // It may be less like the plan before, and not as it was pinned; no rule of the resources is broken.
          expect({ id, because, broken }).toEqual({ id, because, broken: because === 'free' ? [] : [expect.anything(), ...broken.slice(1)] });
        }
      }
    }), { numRuns: 120 });
  });
});

describe('a wait that is nobody’s queue', () => {
  const thawed = { disposition: 'treat' as const, steps: [{ ...freeze.steps[0]!, stabilises: null }, ...treat.steps] };

  test('is a stay in the freezer, for which the clock stands still', () => {
    const problem = smallProblem([item('a', { options: [thawed], deadlineSlot: 6 })]);
    const plan = planOf(
      { ...planned('a', 0, 0, { stationId: 'wrap', personIds: ['bo'], freezerId: 'chest' }), step: 'freeze', endSlot: 1 }, { ...planned('a', 1, 10, { stationId: 'tub', personIds: ['ada'] }), step: 'rinse', endSlot: 12 },
      { ...planned('a', 2, 12, { dryingPlaceId: 'rack' }), step: 'dry', endSlot: 22 }, { ...planned('a', 0, 22, { stationId: 'bench' }), position: 3, step: 'pack', endSlot: 23 },
    );
    const found = explainItem(problem, plan, 'a');
    expect(found).toMatchObject({ stabilisedAtSlot: 12, slackSlots: 3 });
    expect(found.steps[1]).toMatchObject({ waitSlots: 9, waitsFor: null, because: 'frozen' });
    expect(render(found.text[0]!, 'en')).toBe('Before “rinse” it lies frozen for 9 slots, until slot 10 of the plan; its clock stands still meanwhile.');
  });

  test('keeps to the plan that people are working to, or to its pin', () => {
    const plan = planOf(...route('a', 5, 'tub', 'rack'));
    const previous = { holdBeforeSlot: 8, steps: [{ itemId: 'a', disposition: 'treat' as const, step: 'rinse' as const, stationId: 'tub', dryingPlaceId: null, personIds: ['ada'], freezerId: null, startSlot: 5, endSlot: 7 }] };
    const first = (problem: PlanProblem) => explainItem(problem, plan, 'a').steps[0]!.because;
    expect(first(smallProblem([item('a')], { previous }))).toBe('kept');
    expect(first(smallProblem([item('a', { pinned: route('a', 5, 'tub', 'rack') })]))).toBe('pinned');
    expect(first(smallProblem([item('a')]))).toBeNull();
  });
});
