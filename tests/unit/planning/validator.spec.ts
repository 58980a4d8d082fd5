import { describe, expect, test } from '@jest/globals';
import { buildPlan, validatePlan, type Plan, type PlanAssignment, type PlanProblem, type PlanStep } from '#planning';
import { freeze, item, SLOTS, smallProblem } from './support/small.builder.js';

/** Two treated items, one frozen, one with no route: every kind of resource is in use and something is unplanned. */
function problemOf(): PlanProblem {
  const school = { siteId: 'school', open: [{ from: 0, to: SLOTS }] };
  const small = smallProblem([
    item('a'), item('b'), item('c', { options: [freeze] }), item('d', { options: [] }),
  ]);
  return {
    ...small,
    stations: [...small.stations, { ...school, id: 'school-tub', zone: 'dirty', steps: ['rinse'], capacity: 9 }],
    people: [...small.people, { id: 'eve', siteId: 'school', skills: ['rinsing'], restrictions: [], shifts: school.open }],
    rooms: [...small.rooms, { id: 'gym', siteId: 'school', removalGPerSlot: [{ from: 0, to: SLOTS, limit: 99 }] }],
    places: [...small.places, { id: 'gym-rack', roomId: 'gym', areaDm2: 99, open: school.open }],
    freezers: [...small.freezers, { ...school, id: 'school-chest', volumeCl: 99 }],
  };
}

/** A use by somebody else that is already there. */
function begun(): PlanProblem['fixed'][number] {
  return { itemId: 'elsewhere', step: 'dry', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: 0, to: SLOTS } };
}

function at(plan: Plan, itemId: string, position: number): PlanAssignment {
  return plan.assignments.find((assignment) => assignment.itemId === itemId && assignment.position === position)!;
}

function shift(plan: Plan, itemId: string, position: number, slots: number): void {
  const assignment = at(plan, itemId, position);
  assignment.startSlot += slots;
  assignment.endSlot += slots;
}

function room(problem: PlanProblem, limit: number): void {
  problem.rooms[0]!.removalGPerSlot = [{ from: 0, to: 5, limit: 10 }, { from: 5, to: SLOTS, limit }];
}

/** The rinse of item `a`, which is nobody else's. */
function firstStep(problem: PlanProblem): PlanStep {
  problem.items[0]!.options[0] = structuredClone(problem.items[0]!.options[0]!);
  return problem.items[0]!.options[0]!.steps[0]!;
}

function fitted(problem: PlanProblem, fit: { fitUntilSlot?: number }): void {
  firstStep(problem).needsFit = true;
  Object.assign(problem.people[0]!, fit);
}

function flatter(plan: Plan, part: number): void {
  plan.objective = plan.objective.map((value, i) => (i === part ? value - 1 : value)) as unknown as Plan['objective'];
}

type Break = (problem: PlanProblem, plan: Plan) => void;

/** One way to break each rule; the plan is valid before. */
const BREAKS: [rule: string, how: string, Break][] = [
  ['unknown-item', 'an item that is not in the problem is planned', (_, plan) => { at(plan, 'c', 0).itemId = 'x'; }],
  ['unknown-item', 'an item that is not in the problem is listed', (_, plan) => { plan.unplanned[0]!.itemId = 'x'; }],
  ['item-twice', 'an item is planned and listed', (_, plan) => { plan.unplanned.push({ itemId: 'a', weight: 5, blockedBy: { kind: 'time', what: '' } }); }],
  ['item-twice', 'an item is listed twice', (_, plan) => { plan.unplanned.push(plan.unplanned[0]!); }],
  ['item-missing', 'an item is left out', (_, plan) => { plan.unplanned = []; }],
  ['weight', 'a listed weight is wrong', (_, plan) => { plan.unplanned[0]!.weight = 4; }],
  ['option-not-followed', 'the last step is left out', (_, plan) => { plan.assignments.splice(plan.assignments.indexOf(at(plan, 'a', 2)), 1); }],
  ['option-not-followed', 'a step is of another kind', (_, plan) => { at(plan, 'a', 2).step = 'wrap'; }],
  ['option-not-followed', 'the route is not among the options', (_, plan) => { at(plan, 'c', 0).disposition = 'refer'; }],
  ['option-not-followed', 'two routes are mixed', (_, plan) => { at(plan, 'a', 1).disposition = 'hold-frozen'; }],
  ['option-not-followed', 'two routes of one disposition are mixed', (problem, plan) => { problem.items[0]!.options = [problem.items[0]!.options[0]!, problem.items[0]!.options[0]!]; at(plan, 'a', 1).option = 1; }],
  ['step-twice', 'a step is done twice', (_, plan) => { plan.assignments.push({ ...at(plan, 'a', 2), startSlot: 38, endSlot: 39 }); }],
  ['step-duration', 'drying is cut short', (_, plan) => { at(plan, 'a', 1).endSlot -= 1; }],
  ['step-order', 'a step begins before the one before has ended', (_, plan) => { shift(plan, 'a', 2, -1); }],
  ['release', 'an item begins before it is there', (problem) => { problem.items[0]!.releaseSlot = 1; }],
  ['release', 'an item begins while it is still in use elsewhere', (problem) => { problem.fixed.push({ ...begun(), itemId: 'a', stationId: 'bench', interval: { from: 0, to: 2 } }); }],
  ['horizon', 'a step ends after the horizon', (_, plan) => { shift(plan, 'a', 2, SLOTS); }],
  ['horizon', 'a slot is not whole', (_, plan) => { shift(plan, 'a', 2, 0.5); }],
  ['late', 'an item is stabilised after its deadline', (problem) => { problem.items[1]!.deadlineSlot = at(buildPlan(problem, { seed: 1, iterations: 0 }), 'b', 1).startSlot - 1; }],
  ...[0, 1, 2, 3].map((part): [string, string, Break] => ['objective', `part ${part} of the objective is flattered`, (_, plan) => { flatter(plan, part); }]),
  ['objective', 'a part of the objective is left out', (_, plan) => { plan.objective = plan.objective.slice(0, 3) as unknown as Plan['objective']; }],
  ['station-missing', 'a hands-on step has no station', (_, plan) => { at(plan, 'a', 0).stationId = null; }],
  ['station-missing', 'a station is not in the problem', (_, plan) => { at(plan, 'a', 0).stationId = 'x'; }],
  ['station-unsuited', 'a station does another kind of step', (_, plan) => { at(plan, 'a', 0).stationId = 'bench'; }],
  ['station-unsuited', 'a station is in another zone', (problem) => { problem.stations[0]!.zone = 'clean'; }],
  ['station-closed', 'a station is closed', (problem) => { problem.stations[0]!.open = [{ from: 1, to: SLOTS }]; }],
  ['station-capacity', 'a station does two things at once', (problem, plan) => { problem.people[2]!.restrictions = []; shift(plan, 'b', 0, -1); at(plan, 'b', 0).personIds = ['cy']; }],
  ['station-capacity', 'a station is held by what has begun', (problem) => { problem.fixed.push({ ...begun(), stationId: 'tub' }); }],
  ['crew-size', 'nobody is there', (_, plan) => { at(plan, 'a', 0).personIds = []; }],
  ['crew-size', 'there is one too many', (_, plan) => { at(plan, 'a', 2).personIds = ['bo']; }],
  ['crew-size', 'a person is not in the problem', (_, plan) => { at(plan, 'a', 0).personIds = ['x']; }],
  ['crew-skill', 'a person lacks the skill', (_, plan) => { at(plan, 'a', 0).personIds = ['bo']; }],
  ['crew-restriction', 'a person declared a barred restriction', (_, plan) => { at(plan, 'a', 0).personIds = ['cy']; }],
  ['crew-fit', 'a person has no fitted respirator', (problem) => { fitted(problem, {}); }],
  ['crew-fit', 'the fit of a person is over when the step begins', (problem, plan) => { fitted(problem, { fitUntilSlot: at(plan, 'a', 0).startSlot }); }],
  ['heat', 'it is too hot when a step begins', (problem, plan) => { firstStep(problem).coolFromSlot = at(plan, 'a', 0).startSlot + 1; }],
  ['crew-off-shift', 'a person is off shift', (problem) => { problem.people[0]!.shifts = [{ from: 0, to: 1 }, { from: 2, to: SLOTS }]; }],
  ['person-twice', 'a person does two things at once', (problem, plan) => { problem.stations[0]!.capacity = 2; shift(plan, 'b', 0, -1); }],
  ['person-twice', 'a person counts twice in one crew', (problem, plan) => { problem.items[0]!.options[0] = structuredClone(problem.items[0]!.options[0]!); problem.items[0]!.options[0]!.steps[0]!.crew = 2; at(plan, 'a', 0).personIds = ['ada', 'ada']; }],
  ['person-twice', 'a person is held by what has begun', (problem) => { problem.fixed.push({ ...begun(), personIds: ['ada'] }); }],
  ['place-missing', 'a drying step has no place', (_, plan) => { at(plan, 'a', 1).dryingPlaceId = null; }],
  ['place-closed', 'a drying place is closed for a slot', (problem) => { problem.places[0]!.open = [{ from: 0, to: 6 }, { from: 7, to: SLOTS }]; }],
  ['drying-area', 'a place holds more than its area', (problem) => { problem.places[0]!.areaDm2 = 7; }],
  ['drying-area', 'a place is held by what has begun', (problem) => { problem.fixed.push({ ...begun(), dryingPlaceId: 'rack', areaDm2: 1 }); }],
  ['room-air', 'the air takes away less at night', (problem) => { room(problem, 9); }],
  ['room-air', 'the air is loaded by what has begun', (problem) => { problem.fixed.push({ ...begun(), dryingPlaceId: 'rack', loadGPerSlot: 1 }); }],
  ['room-air', 'no removal is known for a stretch', (problem) => { problem.rooms[0]!.removalGPerSlot = [{ from: 0, to: 6, limit: 10 }]; }],
  ['freezer-missing', 'a freezing step has no freezer', (_, plan) => { at(plan, 'c', 0).freezerId = null; }],
  ['freezer-closed', 'a freezer leaves before the horizon', (problem) => { problem.freezers[0]!.open = [{ from: 0, to: SLOTS - 1 }]; }],
  ['freezer-volume', 'a freezer is too small', (problem) => { problem.freezers[0]!.volumeCl = 29; }],
  ['freezer-volume', 'a freezer is filled later by what has begun', (problem) => { problem.fixed.push({ ...begun(), freezerId: 'chest', volumeCl: 21, interval: { from: 30, to: SLOTS } }); }],
  ['other-site', 'a station of another site is used', (_, plan) => { at(plan, 'a', 0).stationId = 'school-tub'; }],
  ['other-site', 'a person of another site is used', (_, plan) => { at(plan, 'a', 0).personIds = ['eve']; }],
  ['other-site', 'a drying place of another site is used', (_, plan) => { at(plan, 'a', 1).dryingPlaceId = 'gym-rack'; }],
  ['other-site', 'a freezer of another site is used', (_, plan) => { at(plan, 'c', 0).freezerId = 'school-chest'; }],
  ['not-needed', 'drying is given a station', (_, plan) => { at(plan, 'a', 1).stationId = 'bench'; }],
  ['not-needed', 'rinsing is given a drying place', (_, plan) => { at(plan, 'a', 0).dryingPlaceId = 'rack'; }],
  ['not-needed', 'rinsing is given a freezer', (_, plan) => { at(plan, 'a', 0).freezerId = 'chest'; }],
];

describe('the validator', () => {
  test('finds nothing in the plan that the breaks start from', () => {
    const problem = problemOf();
    const plan = buildPlan(problem, { seed: 1, iterations: 0 });
    expect(plan.unplanned.map(({ itemId }) => itemId)).toEqual(['d']);
    expect(['a', 'b'].map((id) => at(plan, id, 1).startSlot)).toEqual([2, 4]);
    expect(validatePlan(problem, plan)).toEqual([]);
  });

  test.each(BREAKS)('reports %s when %s', (rule, _, breakIt) => {
    const problem = problemOf();
    const plan = buildPlan(problem, { seed: 1, iterations: 0 });
    breakIt(problem, plan);
    const found = validatePlan(problem, plan);
    expect(found.map((violation) => violation.rule)).toContain(rule);
    for (const { text } of found) expect(text).toMatch(/^\S.*\.$/);
  });
});
