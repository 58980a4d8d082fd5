import { describe, expect, test } from '@jest/globals';
import { checkProblem, validatePlan, type Plan, type PlanAssignment, type PlanProblem, type PlanStep } from '#planning';
import { SLOTS } from '../support/small.builder.js';
import { sharedAndMoved } from './shared-and-moved.builder.js';

type Change = (problem: PlanProblem, plan: Plan) => void;

/** What the validator says after a change to the sound plan. */
function after(change: Change): string[] {
  const { problem, plan } = sharedAndMoved();
  change(problem, plan);
  return validatePlan(problem, plan).map(({ rule }) => rule);
}

function at(plan: Plan, itemId: string, position: number): PlanAssignment {
  return plan.assignments.find((one) => one.itemId === itemId && one.position === position)!;
}

function stepAt(problem: PlanProblem, itemId: string, position: number): PlanStep {
  return problem.items.find(({ id }) => id === itemId)!.options[0]!.steps[position]!;
}

function shift(plan: Plan, itemId: string, positions: readonly number[], slots: number): void {
  for (const position of positions) {
    at(plan, itemId, position).startSlot += slots;
    at(plan, itemId, position).endSlot += slots;
  }
}

function pin(problem: PlanProblem, plan: Plan, itemId: string): void {
  problem.items.find(({ id }) => id === itemId)!.pinned = structuredClone(plan.assignments.filter((one) => one.itemId === itemId));
}

/** Takes an item out of the plan and lists it. */
function list(plan: Plan, itemId: string, kind: 'pin' | 'time'): void {
  plan.assignments = plan.assignments.filter((one) => one.itemId !== itemId);
  plan.unplanned = [{ itemId, weight: 5, blockedBy: { kind, what: '' } }];
}

const BREAKS: [rule: string, how: string, Change][] = [
  ['batch-overfull', 'one thing more stands in the way of the least that may share', (problem) => { stepAt(problem, 'a', 0).batch!.mostUnits = 2; }],
  ['batch-groups', 'things of two groups share a bath', (problem) => { stepAt(problem, 'b', 0).batch!.group = 'wool'; }],
  ['batch-mixed', 'those who share a bath begin at different times', (_, plan) => { shift(plan, 'b', [0, 1], 1); }],
  ['batch-mixed', 'those who share a bath are with different people', (_, plan) => { at(plan, 'b', 0).personIds = ['cy']; }],
  ['batch-mixed', 'those who share a bath are at different stations', (_, plan) => { at(plan, 'b', 0).stationId = 'bench'; }],
  ['batch-mixed', 'those who share a bath need different crews', (problem) => { stepAt(problem, 'b', 0).crew = 2; }],
  ['batch-unsuited', 'a step that is done alone is given a batch', (_, plan) => { at(plan, 'c', 1).batchId = 'first'; }],
  ['station-capacity', 'two baths are in one tub, each with its own name', (_, plan) => { at(plan, 'b', 0).batchId = 'second'; }],
  ['person-twice', 'two baths are with one person, each with its own name', (_, plan) => { at(plan, 'b', 0).batchId = null; }],
  ['station-barred', 'a lead has ruled the tub out', (problem) => { stepAt(problem, 'a', 0).barredStationIds = ['tub']; }],
  ['not-needed', 'thawing is given a station', (_, plan) => { at(plan, 'c', 1).stationId = 'bench'; }],
  ['not-after', 'the courier has left', (problem) => { stepAt(problem, 'c', 2).notAfterSlot = 11; }],
  ['service-capacity', 'the van is too small', (problem) => { problem.services![0]!.capacity = 1; }],
  ['service-closed', 'the van is gone before the way is done', (problem) => { problem.services![0]!.open = [{ from: 0, to: 14 }]; }],
  ['other-site', 'it dries where it was carried away from', (_, plan) => { at(plan, 'c', 3).dryingPlaceId = 'rack'; }],
  ['other-site', 'it was never carried', (problem) => { delete stepAt(problem, 'c', 3).siteId; }],
  ['freezer-short', 'it is thawed too soon', (problem) => { stepAt(problem, 'c', 0).freezer!.leastSlots = 11; }],
  ['freezer-closed', 'the freezer leaves before the thaw', (problem) => { problem.freezers[0]!.open = [{ from: 0, to: 9 }]; }],
  ['freezer-volume', 'the freezer fills before the thaw', (problem) => { problem.fixed.push({ itemId: 'x', step: 'freeze', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: 'chest', volumeCl: 1, interval: { from: 9, to: SLOTS } }); }],
  ['step-order', 'it thaws before it is frozen', (_, plan) => { shift(plan, 'c', [1], -11); }],
  ['late', 'it was frozen a slot too short to make up for the delay', (_, plan) => { shift(plan, 'c', [0], 1); }],
  ['late', 'late things may be planned, but never one that no step makes safe', (problem) => { problem.late = 'plan'; stepAt(problem, 'c', 3).stabilises = null; }],
  ['room-air', 'the load does not fall', (problem) => { delete stepAt(problem, 'a', 1).drying!.falling; }],
  ['room-air', 'the load of what has begun is still high', (problem) => { problem.fixed.push(begun([{ fromSlot: 8, loadGPerSlot: 0 }])); }],
  ['pin', 'a pinned thing is done at another time', (problem, plan) => { pin(problem, plan, 'a'); problem.items[0]!.pinned![1]!.startSlot = 3; }],
  ['pin', 'a pinned thing is done by another person', (problem, plan) => { pin(problem, plan, 'a'); problem.items[0]!.pinned![0]!.personIds = ['cy']; }],
  ['pin', 'a pinned thing is listed for another reason', (problem, plan) => { pin(problem, plan, 'a'); list(plan, 'a', 'time'); }],
  ['objective', 'a thing counts the whole horizon for its delay when it is not planned', (_, plan) => { list(plan, 'a', 'time'); plan.objective = [5, 0, 0, 85]; }],
  ['objective', 'a change of the plan in force is not counted', (problem) => { problem.previous!.steps[0]!.startSlot = 16; }],
];

/** A drying that began five slots ago in the loft. */
function begun(falling: { fromSlot: number; loadGPerSlot: number }[]): PlanProblem['fixed'][number] {
  return { itemId: 'x', step: 'dry', stationId: null, personIds: [], dryingPlaceId: 'rack', areaDm2: 0, loadGPerSlot: 1, falling, freezerId: null, volumeCl: 0, interval: { from: -5, to: SLOTS } };
}

const SOUND: [why: string, Change][] = [
  ['one bath for two things takes one tub and one person', () => undefined],
  ['a crew is the same in whatever order it is named', (problem, plan) => { for (const id of ['a', 'b']) { stepAt(problem, id, 0).crew = 2; at(plan, id, 0).personIds = id === 'a' ? ['ada', 'cy'] : ['cy', 'ada']; } }],
  ['what has begun gives off less by now', (problem) => { problem.fixed.push(begun([{ fromSlot: 7, loadGPerSlot: 0 }])); }],
  ['a pin is kept whatever its batch is called', (problem, plan) => { pin(problem, plan, 'a'); problem.items[0]!.pinned![0]!.batchId = null; }],
  ['a pin that cannot be kept is listed as such', (problem, plan) => { pin(problem, plan, 'a'); list(plan, 'a', 'pin'); plan.objective = [5, 200, 0, 85]; }],
  ['a freezer may be there for the frost alone, and leave', (problem) => { problem.freezers[0]!.open = [{ from: 0, to: 10 }]; }],
  ['late things are planned where that is asked for, and each slot counts', (problem, plan) => { problem.late = 'plan'; problem.items[2]!.deadlineSlot = 2; plan.objective = [5, 15, 0, 95]; }],
  ['lateness counts no more than its cap', (problem, plan) => { problem.late = 'plan'; problem.tardinessCapSlots = 2; problem.items[2]!.deadlineSlot = 2; plan.objective = [5, 10, 0, 95]; }],
  ['a second route counts another horizon of waiting', (problem, plan) => { problem.items[0]!.options.unshift(problem.items[2]!.options[0]!); for (const one of plan.assignments) if (one.itemId === 'a') one.option = 1; plan.objective = [0, 0, 0, 95 + 5 * SLOTS]; }],
];

/** Slots of half an hour, so half of the weight is left 11 slots on, and nothing may move unnoticed. */
const CALM: [why: string, startSlot: number, instability: number][] = [
  ['a step that stays counts nothing', 15, 0],
  ['a step that was to begin within five and a half hours counts whole', 10, 1024],
  ['a step that was to begin after that counts half', 11, 512],
  ['a step that has begun counts nothing', -1, 0],
  ['a step of some later week counts nothing', 11 * 31, 0],
];

describe('the validator, where things share, freeze, travel and dry out', () => {
  test('has a sound problem and a sound plan before it', () => {
    const { problem, plan } = sharedAndMoved();
    expect(checkProblem(problem)).toEqual([]);
    expect(validatePlan(problem, plan)).toEqual([]);
  });

  test.each(BREAKS)('reports %s when %s', (rule, _, change) => {
    expect(after(change)).toContain(rule);
  });

  test.each(SOUND)('accepts that %s', (_, change) => {
    expect(after(change)).toEqual([]);
  });

  test.each(CALM)('reckons calm so that %s', (_, startSlot, instability) => {
    expect(after((problem, plan) => {
      problem.previous!.steps[0]!.startSlot = startSlot;
      plan.objective = [0, 0, instability, 95];
    })).toEqual([]);
  });

  test('lets a step move by a quarter of an hour, and to no other place', () => {
    const moved = (slotMinutes: number, startSlot: number, dryingPlaceId: string): string[] => after((problem) => {
      problem.slotMinutes = slotMinutes;
      Object.assign(problem.previous!.steps[0]!, { startSlot, dryingPlaceId });
    });
    expect(moved(5, 18, 'wall-bars')).toEqual([]);
    expect(moved(5, 19, 'wall-bars')).toEqual(['objective']);
    expect(moved(5, 15, 'rack')).toEqual(['objective']);
  });
});
