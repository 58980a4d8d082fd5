import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildPlan, changedProblem, checkProblem, directionOf, type PlanProblem, type ProblemChange, suggestChanges, SUGGESTED, validatePlan } from '#planning';
import { randomProblem } from './support/random-problem.arbitrary.js';
import { freeze, item, SLOTS, smallProblem } from './support/small.builder.js';

const day = { from: 0, to: SLOTS };
const change = (one: ProblemChange, problem = smallProblem([item('a')])): PlanProblem => changedProblem(problem, [one]);

describe('a changed problem', () => {
  test('has more people, in the hours that were said', () => {
    const { people } = change({ kind: 'people', siteId: 'hall', count: 2, skills: ['rinsing'], restrictions: [], shifts: [{ from: 4, to: 8 }] });
    expect(people.slice(3)).toEqual([1, 2].map((n) => ({ id: `what-if-${n}`, siteId: 'hall', skills: ['rinsing'], restrictions: [], shifts: [{ from: 4, to: 8 }], fitUntilSlot: 0 })));
  });

  test('has somebody go home in the middle of a shift', () => {
    expect(change({ kind: 'person-leaves', personId: 'ada', fromSlot: 7 }).people[0]!.shifts).toEqual([{ from: 0, to: 7 }]);
  });

  test('has more or fewer of a station, never fewer than none', () => {
    const capacityWith = (units: number): number => change({ kind: 'station-units', stationId: 'tub', units }).stations[0]!.capacity;
    expect([1, -1, -5].map(capacityWith)).toEqual([2, 0, 0]);
  });

  test('has a station open longer, or shut for a while', () => {
    const problem = smallProblem([]);
    problem.stations[0]!.open = [{ from: 0, to: 10 }];
    expect(change({ kind: 'station-open', stationId: 'tub', open: [{ from: 10, to: 12 }, { from: 20, to: 22 }] }, problem).stations[0]!.open).toEqual([{ from: 0, to: 12 }, { from: 20, to: 22 }]);
    expect(change({ kind: 'station-closed', stationId: 'tub', closed: { from: 3, to: 5 } }, problem).stations[0]!.open).toEqual([{ from: 0, to: 3 }, { from: 5, to: 10 }]);
  });

  test('has another drying place, or less area from the largest on', () => {
    const problem = smallProblem([], { places: [{ id: 'line', roomId: 'loft', areaDm2: 3, open: [day] }, { id: 'rack', roomId: 'loft', areaDm2: 8, open: [day] }] });
    expect(change({ kind: 'drying-area', roomId: 'loft', areaDm2: 10 }, problem).places[2]).toEqual({ id: 'what-if-1', roomId: 'loft', areaDm2: 10, open: [day] });
    expect(change({ kind: 'drying-area', roomId: 'loft', areaDm2: -9 }, problem).places.map(({ areaDm2 }) => areaDm2)).toEqual([2, 0]);
  });

  test('has air that takes more in these slots, also where no limit was stated, or less, never less than nothing', () => {
    const problem = smallProblem([], { rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 4, to: 8, limit: 10 }, { from: 8, to: 12, limit: 2 }] }] });
    const limitsWith = (gPerSlot: number, from: number, to: number) => change({ kind: 'room-air', roomId: 'loft', gPerSlot, during: { from, to } }, problem).rooms[0]!.removalGPerSlot;
    expect(limitsWith(5, 2, 6)).toEqual([{ from: 2, to: 4, limit: 5 }, { from: 4, to: 6, limit: 15 }, { from: 6, to: 8, limit: 10 }, { from: 8, to: 12, limit: 2 }]);
    expect(limitsWith(-5, 6, 12)).toEqual([{ from: 4, to: 6, limit: 10 }, { from: 6, to: 8, limit: 5 }, { from: 8, to: 12, limit: 0 }]);
  });

  test('has one more freezer from a slot on, or one that takes nothing new', () => {
    expect(change({ kind: 'freezer', siteId: 'hall', volumeCl: 500, fromSlot: 6 }).freezers[1]).toEqual({ id: 'what-if-1', siteId: 'hall', volumeCl: 500, open: [{ from: 6, to: SLOTS }] });
    expect(change({ kind: 'freezer-closed', freezerId: 'chest', fromSlot: 6 }).freezers[0]!.open).toEqual([{ from: 0, to: 6 }]);
  });

  test('has a courier who takes more', () => {
    const problem = smallProblem([], { services: [{ id: 'van', kind: 'courier', capacity: 3, open: [day] }] });
    expect(change({ kind: 'service-units', serviceId: 'van', units: 2 }, problem).services![0]!.capacity).toBe(5);
  });

  test('names what is new apart from all that is there', () => {
    const problem = smallProblem([], { people: [{ id: 'what-if-1', siteId: 'hall', skills: [], restrictions: [], shifts: [] }] });
    const changed = changedProblem(problem, [
      { kind: 'people', siteId: 'hall', count: 1, skills: [], restrictions: [], shifts: [day] }, { kind: 'freezer', siteId: 'hall', volumeCl: 1, fromSlot: 0 },
    ]);
    expect([changed.people[1]!.id, changed.freezers[1]!.id]).toEqual(['what-if-2', 'what-if-3']);
  });

  test('is compared without the plan in force', () => {
    const problem = smallProblem([item('a')], { previous: { steps: [], holdBeforeSlot: 4 } });
    expect(changedProblem(problem, [])).not.toHaveProperty('previous');
    expect(problem.previous).toBeDefined();
  });

  test.each<[string, ProblemChange]>([
    ['a person', { kind: 'person-leaves', personId: 'x', fromSlot: 0 }], ['a station', { kind: 'station-units', stationId: 'x', units: 1 }],
    ['a room', { kind: 'drying-area', roomId: 'x', areaDm2: 1 }], ['air', { kind: 'room-air', roomId: 'x', gPerSlot: 1, during: day }],
    ['a freezer', { kind: 'freezer-closed', freezerId: 'x', fromSlot: 0 }], ['a service', { kind: 'service-units', serviceId: 'x', units: 1 }],
    ['half a bath', { kind: 'station-units', stationId: 'tub', units: 0.5 }], ['less than nobody', { kind: 'people', siteId: 'hall', count: -1, skills: [], restrictions: [], shifts: [] }],
  ])('is refused for %s that is not there or not whole', (_, one) => {
    expect(() => change(one)).toThrow(RangeError);
  });

  test('of any problem can be planned, its plan is sound, and nothing of the problem is touched', () => {
    fc.assert(fc.property(randomProblem(8), fc.array(anyChange, { maxLength: 4 }), fc.nat(), (problem, makers, seed) => {
      const before = structuredClone(problem);
      const changes = makers.flatMap((make) => make(problem) ?? []);
      const changed = changedProblem(problem, changes);
      expect(checkProblem(changed)).toEqual([]);
      expect(validatePlan(changed, buildPlan(changed, { seed, iterations: 15 }))).toEqual([]);
      expect(problem).toEqual(before);
    }), { numRuns: 150 });
  });
});

describe('the direction of changes', () => {
  test('is to give, to take, or both', () => {
    const more: ProblemChange = { kind: 'station-units', stationId: 'tub', units: 1 };
    const less: ProblemChange = { kind: 'person-leaves', personId: 'ada', fromSlot: 0 };
    expect([directionOf([]), directionOf([more]), directionOf([less]), directionOf([more, less])]).toEqual(['gives', 'gives', 'takes', 'mixed']);
  });
});

describe('suggested changes', () => {
  const means = { volunteers: { from: 20, to: 28 }, dehumidifierGPerSlot: new Map([['loft', 7]]) };
  const suggested = (problem: PlanProblem) => suggestChanges(problem, buildPlan(problem, { seed: 1, iterations: 0 }), means);

  test('begin with what keeps most weight out, and end with two volunteers for that site', () => {
    const problem = smallProblem(['a', 'b', 'c', 'd'].map((id) => item(id, { options: [freeze], weight: 9 })));
    const found = suggested(problem);
    expect(found[0]).toEqual([{ kind: 'freezer', siteId: 'hall', volumeCl: SUGGESTED.freezerVolumeCl, fromSlot: 0 }]);
    expect(found.at(-1)).toEqual([{ kind: 'people', siteId: 'hall', count: 2, skills: ['blotting', 'drying', 'rinsing'], restrictions: [], shifts: [{ from: 20, to: 28 }] }]);
    expect(found.length).toBeLessThanOrEqual(SUGGESTED.most);
  });

  test('give a person the hours of those who do it already', () => {
    const problem = smallProblem(Array.from({ length: 4 }, (_, i) => item(`i${i}`, { deadlineSlot: 4 })));
    problem.people[0]!.shifts = [{ from: 0, to: 2 }];
    problem.stations[0]!.capacity = 9;
    expect(suggested(problem)).toContainEqual([{ kind: 'people', siteId: 'hall', count: 1, skills: ['rinsing'], restrictions: [], shifts: [day] }]);
  });

  test('offer a dehumidifier only where the physics gives it something to take', () => {
    const wet = { ...means, dehumidifierGPerSlot: new Map<string, number>() };
    const problem = smallProblem(['a', 'b', 'c'].map((id) => item(id, { deadlineSlot: 9 })));
    problem.places[0]!.areaDm2 = 99;
    const plan = buildPlan(problem, { seed: 1, iterations: 0 });
    const airs = (by: typeof means) => suggestChanges(problem, plan, by).flat().filter(({ kind }) => kind === 'room-air');
    expect(airs(means)).toEqual([{ kind: 'room-air', roomId: 'loft', gPerSlot: 7, during: day }]);
    expect(airs(wet)).toEqual([]);
  });

  test('are none where nothing is short', () => {
    expect(suggested(smallProblem([]))).toEqual([]);
  });

  test('of any problem can be made', () => {
    fc.assert(fc.property(randomProblem(10), (problem) => {
      const anyMeans = { volunteers: { from: 4, to: 12 }, dehumidifierGPerSlot: new Map(problem.rooms.map(({ id }) => [id, 3])) };
      for (const whatIf of suggestChanges(problem, buildPlan(problem, { seed: 1, iterations: 0 }), anyMeans)) expect(checkProblem(changedProblem(problem, whatIf))).toEqual([]);
    }), { numRuns: 100 });
  });
});

type Maker = (problem: PlanProblem) => ProblemChange | null;
const slot = fc.integer({ min: 0, max: 40 });
const span = fc.tuple(slot, fc.integer({ min: 1, max: 20 })).map(([from, length]) => ({ from, to: from + length }));
const signed = fc.integer({ min: -6, max: 12 });
const anyChange: fc.Arbitrary<Maker> = fc.oneof(
  fc.tuple(fc.nat(3), fc.array(span, { maxLength: 2 })).map(([count, shifts]): Maker => () => ({ kind: 'people', siteId: 'hall', count, skills: ['rinsing', 'blotting'], restrictions: [], shifts })),
  slot.map((fromSlot): Maker => ({ people: [one] }) => one === undefined ? null : { kind: 'person-leaves', personId: one.id, fromSlot }),
  signed.map((units): Maker => ({ stations: [one] }) => one === undefined ? null : { kind: 'station-units', stationId: one.id, units }),
  fc.array(span, { maxLength: 3 }).map((open): Maker => ({ stations: [one] }) => one === undefined ? null : { kind: 'station-open', stationId: one.id, open }),
  span.map((closed): Maker => ({ stations: [one] }) => one === undefined ? null : { kind: 'station-closed', stationId: one.id, closed }),
  signed.map((areaDm2): Maker => ({ rooms: [one] }) => one === undefined ? null : { kind: 'drying-area', roomId: one.id, areaDm2 }),
  fc.tuple(signed, span).map(([gPerSlot, during]): Maker => ({ rooms: [one] }) => one === undefined ? null : { kind: 'room-air', roomId: one.id, gPerSlot, during }),
  fc.tuple(fc.nat(9), slot).map(([volumeCl, fromSlot]): Maker => () => ({ kind: 'freezer', siteId: 'hall', volumeCl, fromSlot })),
  slot.map((fromSlot): Maker => ({ freezers: [one] }) => one === undefined ? null : { kind: 'freezer-closed', freezerId: one.id, fromSlot }),
);
