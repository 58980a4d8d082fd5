import { describe, expect, test } from '@jest/globals';
import { buildPlan, validatePlan, type FixedUse, type Plan, type PlanOption, type PlanProblem, type PlanStep } from '#planning';
import { step } from './support/day.builder.js';
import { freeze, item, SLOTS, smallProblem, treat } from './support/small.builder.js';

function planOf(problem: PlanProblem): Plan {
  const plan = buildPlan(problem, { seed: 1, iterations: 20 });
  expect(validatePlan(problem, plan)).toEqual([]);
  return plan;
}

function starts(plan: Plan, itemId: string): number[] {
  return plan.assignments.filter((assignment) => assignment.itemId === itemId).sort((a, b) => a.position - b.position).map(({ startSlot }) => startSlot);
}

function dispositions(plan: Plan): Record<string, string> {
  return Object.fromEntries(plan.assignments.map(({ itemId, disposition }) => [itemId, disposition]));
}

/** The route of the small problem with something more asked of its rinse. */
function rinseFirst(more: Partial<PlanStep>): PlanOption {
  return { ...treat, steps: treat.steps.map((one) => (one.step === 'rinse' ? { ...one, ...more } : one)) };
}

/** The people of the small problem, Ada with a respirator that was fitted. */
function fittedUntil(slot: number): PlanProblem['people'] {
  return smallProblem([]).people.map((person) => (person.id === 'ada' ? { ...person, fitUntilSlot: slot } : person));
}

const fixed: FixedUse = { itemId: 'earlier', step: 'dry', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: 0, to: SLOTS } };

describe('the planner', () => {
  test('places the steps of an item as early as they fit, left to right', () => {
    const plan = planOf(smallProblem([item('quilt', { releaseSlot: 3 })]));
    expect(starts(plan, 'quilt')).toEqual([3, 5, 15]);
    expect(plan.assignments[0]).toMatchObject({ stationId: 'tub', personIds: ['ada'] });
    expect(plan.objective).toEqual([0, 0, 0, 25]);
  });

  test('takes the preferred route while it is in time and the next one only when it is not', () => {
    const options = [treat, freeze];
    const problem = smallProblem(['a', 'b', 'c'].map((id) => item(id, { options, deadlineSlot: 6 })));
    // Two dry at a time for ten slots, so the third can only be in time frozen.
    const plan = planOf(problem);
    expect(Object.values(dispositions(plan)).sort()).toEqual(['hold-frozen', 'treat', 'treat']);
    expect(plan.unplanned).toEqual([]);
    expect(dispositions(planOf(smallProblem([item('a', { options })])))).toEqual({ a: 'treat' });
  });

  test('lists an item that cannot be in time with what stands in its way, rather than planning it late', () => {
    const plan = planOf(smallProblem(['a', 'b', 'c'].map((id, i) => item(id, { deadlineSlot: 6, weight: 5 + i }))));
    expect(plan.unplanned).toEqual([{ itemId: 'a', weight: 5, blockedBy: { kind: 'drying-area', what: 'loft' } }]);
    expect(plan.objective[0]).toBe(5);
  });

  test.each<[string, PlanProblem, { kind: string; what: string }]>([
    ['no station', smallProblem([item('a')], { stations: [] }), { kind: 'station', what: 'rinse' }],
    ['nobody without the barred restriction', smallProblem([item('a')], { people: smallProblem([]).people.filter(({ id }) => id !== 'ada') }), { kind: 'restriction', what: 'rinsing' }],
    ['nobody with the skill', smallProblem([item('a')], { people: smallProblem([]).people.filter(({ id }) => id === 'bo') }), { kind: 'crew', what: 'rinsing' }],
    ['nobody whose respirator was fitted', smallProblem([item('a', { options: [rinseFirst({ needsFit: true })] })]), { kind: 'respirator-fit', what: 'rinsing' }],
    ['a fit that is over before the thing is there', smallProblem([item('a', { releaseSlot: 4, options: [rinseFirst({ needsFit: true })] })], { people: fittedUntil(4) }), { kind: 'respirator-fit', what: 'rinsing' }],
    ['heat up to its deadline', smallProblem([item('a', { options: [rinseFirst({ coolFromSlot: 19 })] })]), { kind: 'heat', what: 'rinse' }],
    ['no drying area large enough', smallProblem([item('a')], { places: [{ ...smallProblem([]).places[0]!, areaDm2: 3 }] }), { kind: 'drying-area', what: 'loft' }],
    ['a room with too little air', smallProblem([item('a')], { rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 0, to: SLOTS, limit: 4 }] }] }), { kind: 'room-air', what: 'loft' }],
    ['a freezer that is too small', smallProblem([item('a', { options: [freeze] })], { freezers: [{ ...smallProblem([]).freezers[0]!, volumeCl: 29 }] }), { kind: 'freezer', what: 'chest' }],
    ['a deadline before anything can be done', smallProblem([item('a', { deadlineSlot: 1 })]), { kind: 'time', what: '' }],
    ['a deadline already past', smallProblem([item('a', { deadlineSlot: -4 })]), { kind: 'time', what: '' }],
    ['no route at all', smallProblem([item('a', { options: [] })]), { kind: 'route', what: '' }],
    ['no route that stabilises', smallProblem([item('a', { options: [{ disposition: 'release', steps: [step('pack')] }] })]), { kind: 'route', what: '' }],
    ['a station that opens too late', smallProblem([item('a')], { stations: smallProblem([]).stations.map((one) => ({ ...one, open: [{ from: 30, to: SLOTS }] })) }), { kind: 'station', what: 'rinse' }],
    ['resources of another site only', smallProblem([item('a', { siteId: 'school' })]), { kind: 'station', what: 'rinse' }],
  ])('names the blocker: %s', (_, problem, blockedBy) => {
    expect(planOf(problem).unplanned).toEqual([{ itemId: 'a', weight: 5, blockedBy }]);
  });

  test('lets drying run while the stations are closed and the people are away', () => {
    const day = [{ from: 0, to: 4 }, { from: 30, to: SLOTS }];
    const small = smallProblem([]);
    const plan = planOf(smallProblem([item('quilt')], { stations: small.stations.map((one) => ({ ...one, open: day })), people: small.people.map((one) => ({ ...one, shifts: day })) }));
    expect(starts(plan, 'quilt')).toEqual([0, 2, 30]);
  });

  test('keeps the air of the room within its limit at night too', () => {
    const room = { id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 0, to: 8, limit: 10 }, { from: 8, to: 12, limit: 4 }, { from: 12, to: SLOTS, limit: 10 }] };
    expect(starts(planOf(smallProblem([item('quilt')], { rooms: [room] })), 'quilt')).toEqual([0, 12, 22]);
  });

  test('does not dry where a place is closed in between', () => {
    const place = { ...smallProblem([]).places[0]!, open: [{ from: 0, to: 8 }, { from: 9, to: SLOTS }] };
    expect(starts(planOf(smallProblem([item('quilt')], { places: [place] })), 'quilt')).toEqual([0, 9, 19]);
  });

  test('counts a frozen item until the horizon, so one chest of 50 cl takes one of 30', () => {
    const plan = planOf(smallProblem(['a', 'b'].map((id, i) => item(id, { options: [freeze], weight: 1 + i, deadlineSlot: 30 }))));
    expect(dispositions(plan)).toEqual({ b: 'hold-frozen' });
    expect(plan.unplanned).toEqual([{ itemId: 'a', weight: 1, blockedBy: { kind: 'freezer', what: 'chest' } }]);
  });

  test('does not freeze into a freezer that leaves before the horizon', () => {
    const chest = { ...smallProblem([]).freezers[0]!, open: [{ from: 0, to: SLOTS - 1 }] };
    expect(planOf(smallProblem([item('a', { options: [freeze] })], { freezers: [chest] })).unplanned[0]!.blockedBy).toEqual({ kind: 'freezer', what: 'chest' });
  });

  test('plans what is already stabilised after the urgent, never as late, and lists it only when it fits nowhere', () => {
    const items = [item('safe', { stabilised: true, deadlineSlot: 0, weight: 21 }), item('urgent', { weight: 1 })];
    const plan = planOf(smallProblem(items));
    expect(starts(plan, 'urgent')[0]).toBe(0);
    expect(starts(plan, 'safe')[0]).toBe(2);
    const crowded = planOf(smallProblem([...items, item('big', { stabilised: true, options: [{ disposition: 'treat', steps: [{ ...treat.steps[1]!, durationSlots: SLOTS, drying: { areaDm2: 9, loadGPerSlot: 0 } }] }] })]));
    expect(crowded.unplanned).toEqual([{ itemId: 'big', weight: 5, blockedBy: { kind: 'drying-area', what: 'loft' } }]);
    expect(crowded.objective[0]).toBe(0);
  });

  test('leaves what has begun its resources', () => {
    const begun = (use: Partial<FixedUse>): number[] => starts(planOf(smallProblem([item('quilt')], { fixed: [{ ...fixed, interval: { from: -3, to: 7 }, ...use }] })), 'quilt');
    expect(begun({ stationId: 'tub' })).toEqual([7, 9, 19]);
    expect(begun({ personIds: ['ada'] })).toEqual([7, 9, 19]);
    expect(begun({ dryingPlaceId: 'rack', areaDm2: 5 })).toEqual([0, 7, 17]);
    expect(begun({ dryingPlaceId: 'rack', loadGPerSlot: 6 })).toEqual([0, 7, 17]);
    expect(planOf(smallProblem([item('a', { options: [freeze] })], { fixed: [{ ...fixed, freezerId: 'chest', volumeCl: 21 }] })).unplanned).toHaveLength(1);
  });

  test('plans the next step of an item only after the one that has begun, but fetches it from a freezer', () => {
    const own = { ...fixed, itemId: 'quilt', interval: { from: 0, to: 6 } };
    expect(starts(planOf(smallProblem([item('quilt')], { fixed: [{ ...own, stationId: 'bench' }] })), 'quilt')[0]).toBe(6);
    expect(starts(planOf(smallProblem([item('quilt')], { fixed: [{ ...own, freezerId: 'chest', volumeCl: 30 }] })), 'quilt')[0]).toBe(0);
  });

  test('plans nothing on top of an overdrawn resource and does not call the fact itself a violation', () => {
    const overdrawn = { ...fixed, dryingPlaceId: 'rack', areaDm2: 99, loadGPerSlot: 99 };
    const plan = planOf(smallProblem([item('quilt')], { fixed: [overdrawn] }));
    expect(plan.unplanned).toHaveLength(1);
  });

  test('gives a step that asks for a fitted respirator to somebody whose fit is valid when it begins', () => {
    const problem = smallProblem([item('a', { options: [rinseFirst({ needsFit: true })] }), item('b', { options: [rinseFirst({ needsFit: true })] }), item('c', { options: [rinseFirst({ needsFit: true })] })], { people: fittedUntil(3) });
    problem.stations[0]!.capacity = 3;
    const plan = planOf(problem);
    // Ada may begin before slot 3, which is twice: at 0 and, after two slots, at 2.
    expect(plan.assignments.filter(({ step }) => step === 'rinse').map(({ personIds, startSlot }) => [personIds, startSlot])).toEqual([[['ada'], 0], [['ada'], 2]]);
    expect(plan.unplanned).toMatchObject([{ blockedBy: { kind: 'respirator-fit', what: 'rinsing' } }]);
  });

  test('keeps those with a fitted respirator free for the steps that ask for one', () => {
    const problem = smallProblem([item('a')], { people: [...fittedUntil(SLOTS), { id: 'zoe', siteId: 'hall', skills: ['rinsing'], restrictions: [], shifts: [{ from: 0, to: SLOTS }] }] });
    expect(planOf(problem).assignments[0]).toMatchObject({ step: 'rinse', personIds: ['zoe'] });
  });

  test('begins nothing in a heat that stops people, and goes on when it is over', () => {
    expect(planOf(smallProblem([item('a', { options: [rinseFirst({ coolFromSlot: 7 })] })])).assignments[0]).toMatchObject({ step: 'rinse', startSlot: 7 });
  });

  test('calls it short of people, not of fits or freedom from restrictions, while those who lack them are busy too', () => {
    const wash: PlanOption = { disposition: 'treat', steps: [step('rinse', { zone: 'dirty', durationSlots: SLOTS, skill: 'rinsing', stabilises: 'end' })] };
    const busy = (id: string) => item(id, { weight: 900, deadlineSlot: SLOTS, options: [wash] });
    const problem = smallProblem([busy('x'), busy('y'), item('z', { options: [rinseFirst({ needsFit: true })] })], { people: fittedUntil(SLOTS) });
    problem.stations[0]!.capacity = 3;
    expect(planOf(problem).unplanned).toMatchObject([{ itemId: 'z', blockedBy: { kind: 'crew', what: 'rinsing' } }]);
  });

  test('gives a step to the least versatile person who may do it', () => {
    const anyone = { disposition: 'treat' as const, steps: [step('pack', { stabilises: 'end' })] };
    const people = [{ id: 'all-round', siteId: 'hall', skills: ['rinsing' as const, 'paper' as const], restrictions: [], shifts: [{ from: 0, to: SLOTS }] }, { id: 'helper', siteId: 'hall', skills: [], restrictions: [], shifts: [{ from: 0, to: SLOTS }] }];
    expect(planOf(smallProblem([item('a', { options: [anyone] })], { people })).assignments[0]!.personIds).toEqual(['helper']);
  });

  test('saves the heavier of two items that compete for one slot', () => {
    const plan = planOf(smallProblem([item('a', { weight: 2, deadlineSlot: 2 }), item('b', { weight: 9, deadlineSlot: 2 })]));
    expect(plan.unplanned.map(({ itemId }) => itemId)).toEqual(['a']);
  });

  test('gives a whole shift to one heavy item instead of the short ones in its way', () => {
    const work = (durationSlots: number) => [{ disposition: 'treat' as const, steps: [step('pack', { durationSlots, stabilises: 'end' as const })] }];
    const short = ['s1', 's2'].map((id, i) => item(id, { options: work(2), weight: 1, deadlineSlot: 3 + 5 * i, releaseSlot: 5 * i }));
    const people = [{ id: 'ada', siteId: 'hall', skills: [], restrictions: [], shifts: [{ from: 0, to: 10 }] }];
    const problem = smallProblem([...short, item('long', { options: work(10), weight: 9, deadlineSlot: 10 })], { people });
    expect(dispositions(planOf(problem))).toEqual({ long: 'treat' });
  });

  test('answers an empty problem with an empty plan', () => {
    expect(planOf(smallProblem([]))).toMatchObject({ seed: 1, assignments: [], unplanned: [], objective: [0, 0, 0, 0] });
  });
});
