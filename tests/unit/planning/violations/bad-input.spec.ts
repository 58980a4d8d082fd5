import { describe, expect, test } from '@jest/globals';
import { buildPlan, checkProblem, MalformedPlanProblem, validatePlan, type Plan, type PlanOption, type PlanProblem } from '#planning';
import { step } from '../support/day.builder.js';
import { freeze, item, SLOTS, smallProblem, treat } from '../support/small.builder.js';

/** A sound plan in which every item given is there once: planned or listed with a reason. */
function answer(problem: PlanProblem): Plan {
  expect(checkProblem(problem)).toEqual([]);
  const plan = buildPlan(problem, { seed: 1, iterations: 20 });
  expect(validatePlan(problem, plan)).toEqual([]);
  const planned = new Set(plan.assignments.map(({ itemId }) => itemId));
  expect([...planned, ...plan.unplanned.map(({ itemId }) => itemId)].sort()).toEqual(problem.items.map(({ id }) => id).sort());
  for (const { blockedBy } of plan.unplanned) expect(blockedBy.kind).toMatch(/^[a-z-]+$/);
  return plan;
}

function listed(problem: PlanProblem): string[] {
  return answer(problem).unplanned.map(({ itemId }) => itemId);
}

/** What is said of a problem that is refused; nothing is planned then. */
function refusal(change: (problem: PlanProblem) => void): string {
  const problem = structuredClone(smallProblem([item('a', { options: [treat, freeze] }), item('b')]));
  change(problem);
  expect(() => buildPlan(problem, { seed: 1, iterations: 0 })).toThrow(MalformedPlanProblem);
  return checkProblem(problem).map(({ path, text }) => `${path} ${text}`).join('; ');
}

const three = (overrides: Parameters<typeof item>[1] = {}) => ['a', 'b', 'c'].map((id) => item(id, { options: [treat, freeze], ...overrides }));

describe('bad input is refused with a sentence, or every item given is in the answer', () => {
  test('an empty incident', () => {
    expect(answer(smallProblem([])).assignments).toEqual([]);
  });

  test('one item, and one item with nothing else in the whole problem', () => {
    expect(listed(smallProblem([item('a')]))).toEqual([]);
    expect(listed({ ...smallProblem([item('a')]), stations: [], people: [], rooms: [], places: [], freezers: [] })).toEqual(['a']);
  });

  test('stations that never open, and people who are never there', () => {
    const small = smallProblem(three());
    expect(listed({ ...small, stations: small.stations.map((one) => ({ ...one, open: [] })) })).toEqual(['a', 'b', 'c']);
    expect(listed({ ...small, people: small.people.map((one) => ({ ...one, shifts: [] })) })).toEqual(['a', 'b', 'c']);
  });

  test('durations below nothing, not whole, and longer than anything', () => {
    expect(refusal((p) => { p.items[0]!.options[0]!.steps[0]!.durationSlots = -2; })).toContain('items[0].options[0].steps[0].durationSlots must be at least 0, not -2');
    expect(refusal((p) => { p.items[0]!.options[0]!.steps[0]!.durationSlots = 1.5; })).toContain('must be a whole number, not 1.5');
    expect(refusal((p) => { p.items[0]!.options[0]!.steps[1]!.durationSlots = 1e9; })).toContain('must be at most 100000, not 1000000000');
    const endless: PlanOption = { disposition: 'treat', steps: [step('pack', { durationSlots: 100_000, stabilises: 'start' })] };
    expect(listed(smallProblem([item('a', { options: [endless] }), item('b')]))).toEqual(['a']);
  });

  test('a way that goes round in a circle, and a step that comes again and again', () => {
    const round: PlanOption = { disposition: 'treat', steps: ['school', 'hall', 'school', 'hall'].flatMap((siteId) => [step('carry', { noStation: true, crew: 0 }), step('check', { siteId, noStation: true, crew: 0, stabilises: 'end' })]) };
    const again: PlanOption = { disposition: 'treat', steps: Array.from({ length: 30 }, () => step('rinse', { zone: 'dirty', stabilises: 'end' })) };
    expect(listed(smallProblem([item('a', { options: [round] }), item('b', { options: [again] })]))).toEqual([]);
    expect(refusal((p) => { p.items[0]!.options[0]!.steps[1]!.siteId = 'school'; })).toContain('put a step "carry" before it');
  });

  test('items past their deadline', () => {
    expect(listed(smallProblem(three({ deadlineSlot: -100 })))).toEqual(['a', 'b', 'c']);
    expect(answer({ ...smallProblem(three({ deadlineSlot: -100 })), late: 'plan' }).assignments.length).toBeGreaterThan(0);
  });

  test('items that come after the end of the plan', () => {
    expect(listed(smallProblem(three({ releaseSlot: 10 * SLOTS, deadlineSlot: 20 * SLOTS })))).toEqual(['a', 'b', 'c']);
  });

  test('capacity that drops to nothing in the middle', () => {
    const small = smallProblem(three());
    const halves = [{ from: 0, to: 12 }, { from: 25, to: SLOTS }];
    answer({ ...small, stations: small.stations.map((one) => ({ ...one, open: halves })) });
    answer({ ...small, people: small.people.map((one) => ({ ...one, shifts: halves })) });
    answer({ ...small, places: small.places.map((one) => ({ ...one, open: halves })) });
    answer({ ...small, freezers: small.freezers.map((one) => ({ ...one, open: halves })) });
    answer({ ...small, rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: halves.map((half) => ({ ...half, limit: 10 })) }] });
    answer({ ...small, stations: small.stations.map((one) => ({ ...one, capacity: 0 })), freezers: small.freezers.map((one) => ({ ...one, volumeCl: 0 })) });
    const taken = small.stations.map(({ id }) => ({ itemId: 'x', step: 'rinse' as const, stationId: id, personIds: ['ada', 'bo'], dryingPlaceId: 'rack', areaDm2: 99, loadGPerSlot: 99, freezerId: 'chest', volumeCl: 99, interval: { from: 12, to: 25 } }));
    answer({ ...small, fixed: taken });
  });

  test('ids that are there twice, in every list', () => {
    for (const list of ['stations', 'people', 'rooms', 'places', 'freezers', 'items'] as const) {
      expect(refusal((p) => { (p[list] as { id: string }[]).push(p[list][0]!); })).toMatch(new RegExp(`${list}\\[\\d+\\]\\.id "${smallProblem([item('a')])[list][0]!.id}" is used twice`));
    }
  });

  test('thirty years of quarter hours, with what to do, and thirty years of days', () => {
    expect(refusal((p) => { Object.assign(p, { slotMinutes: 15, horizonSlots: 30 * 365.25 * 96 }); }))
      .toContain('horizonSlots must be at most 100000, not 1051920, which is 10958 days of 15 minute slots; plan a nearer stretch of time or take longer slots');
    const open = [{ from: 0, to: 10_958 }];
    const small = smallProblem(three({ deadlineSlot: 10_000 }));
    expect(listed({ ...small, slotMinutes: 1440, horizonSlots: 10_958, stations: small.stations.map((one) => ({ ...one, open })), people: small.people.map((one) => ({ ...one, shifts: open })), places: small.places.map((one) => ({ ...one, open })), freezers: small.freezers.map((one) => ({ ...one, open })) })).toEqual([]);
  });

  test('the longest plan that is taken', () => {
    answer({ ...smallProblem(three()), horizonSlots: 100_000 });
  });
});
