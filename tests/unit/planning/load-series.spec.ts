import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { bindingResources, buildPlan, lanesOf, LOAD_KINDS, loadSeries, loadStretches, type Plan, type PlanAssignment, type PlanItem, type PlanProblem, type PlanStep } from '#planning';
import { generateIncident } from '#testing/salvage';

const HORIZON = 20;
const plain: PlanStep = { step: 'rinse', zone: 'dirty', durationSlots: 2, crew: 1, skill: null, barredRestrictions: [], drying: null, freezer: null, stabilises: null };
const stepOf = (change: Partial<PlanStep>): PlanStep => ({ ...plain, ...change });

function itemOf(id: string, options: PlanStep[][]): PlanItem {
  return { id, siteId: 's', releaseSlot: 0, deadlineSlot: HORIZON, weight: 1, stabilised: false, options: options.map((steps) => ({ disposition: 'treat', steps })) };
}

function assignmentOf(itemId: string, change: Partial<PlanAssignment>): PlanAssignment {
  return { itemId, option: 0, position: 0, step: 'rinse', disposition: 'treat', batchId: null, stationId: null, personIds: [], dryingPlaceId: null, freezerId: null, startSlot: 0, endSlot: 2, ...change };
}

function problemOf(items: PlanItem[], change: Partial<PlanProblem> = {}): PlanProblem {
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: HORIZON, items, fixed: [],
    stations: [{ id: 'bath', siteId: 's', zone: 'dirty', steps: ['rinse', 'blot'], capacity: 2, open: [{ from: 2, to: 10 }] }],
    people: [{ id: 'p', siteId: 's', skills: ['rinsing'], restrictions: [], shifts: [{ from: 0, to: 12 }] }],
    rooms: [{ id: 'room', siteId: 's', removalGPerSlot: [{ from: 0, to: HORIZON, limit: 300 }] }],
    places: [{ id: 'rack', roomId: 'room', areaDm2: 50, open: [{ from: 0, to: HORIZON }] }],
    freezers: [{ id: 'chest', siteId: 's', volumeCl: 900, open: [{ from: 0, to: HORIZON }] }],
    services: [{ id: 'van', kind: 'courier', capacity: 5, open: [{ from: 4, to: 8 }] }],
    ...change,
  };
}

const planOf = (assignments: PlanAssignment[]): Plan => ({ seed: 1, iterations: 0, assignments, unplanned: [], objective: [0, 0, 0, 0] });
const slots = (used: Record<number, number>): number[] => Array.from({ length: HORIZON }, (_, slot) => used[slot] ?? 0);
const span = (from: number, to: number, value: number): Record<number, number> => Object.fromEntries(Array.from({ length: to - from }, (_, i) => [from + i, value]));

describe('the load of a resource', () => {
  test('counts things that are done together once, under everything that the station does, against its open hours', () => {
    const shared = { stationId: 'bath', personIds: ['p'], startSlot: 3, endSlot: 5 };
    const plan = planOf([assignmentOf('a', { ...shared, batchId: 'b1' }), assignmentOf('b', { ...shared, batchId: 'b1' }), assignmentOf('c', { ...shared, batchId: null, personIds: [] })]);
    const problem = problemOf(['a', 'b', 'c'].map((id) => itemOf(id, [[plain]])));
    for (const step of ['rinse', 'blot']) expect(loadSeries(problem, plan, 'station', step, 's')).toEqual({ siteId: 's', kind: 'station', what: step, used: slots(span(3, 5, 2)), available: slots(span(2, 10, 2)) });
    expect(loadSeries(problem, plan, 'crew', '', 's')?.used).toEqual(slots(span(3, 5, 1)));
    expect(loadSeries(problem, plan, 'crew', 'rinsing', 's')?.available).toEqual(slots(span(0, 12, 1)));
  });

  test('of the air falls as things dry, by the route that was chosen', () => {
    const falling = [{ fromSlot: 2, loadGPerSlot: 60 }, { fromSlot: 4, loadGPerSlot: 10 }];
    const dry = stepOf({ step: 'dry', durationSlots: 6, drying: { areaDm2: 20, loadGPerSlot: 100, falling } });
    const problem = problemOf([itemOf('a', [[plain], [dry]])], { fixed: [{ itemId: 'z', step: 'dry', stationId: null, personIds: [], dryingPlaceId: 'rack', areaDm2: 40, loadGPerSlot: 7, falling: [{ fromSlot: 1, loadGPerSlot: 3 }], freezerId: null, volumeCl: 0, interval: { from: 0, to: 3 } }] });
    const plan = planOf([assignmentOf('a', { option: 1, step: 'dry', dryingPlaceId: 'rack', startSlot: 2, endSlot: 8 })]);
    expect(loadSeries(problem, plan, 'room-air', 'room', 's')?.used).toEqual(slots({ 0: 7, 1: 3, 2: 103, 3: 100, 4: 60, 5: 60, 6: 10, 7: 10 }));
    const area = loadSeries(problem, plan, 'drying-area', 'room', 's')!;
    expect(area.used).toEqual(slots({ 0: 40, 1: 40, 2: 60, ...span(3, 8, 20) }));
    // What had begun before overdraws the racks in one slot.
    expect(loadStretches(area).filter(({ used, available }) => used > available)).toEqual([{ from: 2, to: 3, used: 60, available: 50 }]);
  });

  test('of a freezer lasts until the next step of the route, or to the end', () => {
    const freeze = stepOf({ step: 'freeze', durationSlots: 1, freezer: { volumeCl: 100 }, crew: 0, noStation: true });
    const thaw = stepOf({ step: 'thaw', durationSlots: 2, noStation: true });
    const problem = problemOf([itemOf('a', [[freeze, thaw]]), itemOf('b', [[freeze]])]);
    const plan = planOf([assignmentOf('a', { position: 1, step: 'thaw', startSlot: 9, endSlot: 11 }), assignmentOf('a', { step: 'freeze', freezerId: 'chest', startSlot: 1, endSlot: 2 }), assignmentOf('b', { step: 'freeze', freezerId: 'chest', startSlot: 4, endSlot: 5 })]);
    expect(loadSeries(problem, plan, 'freezer', 'chest', 's')?.used).toEqual(slots({ ...span(2, 5, 100), ...span(5, 9, 200), ...span(9, HORIZON, 100) }));
  });

  test('of a courier is that of the pieces in the van, on no site', () => {
    const carry = stepOf({ step: 'carry', noStation: true, crew: 0, services: [{ serviceId: 'van', units: 3 }] });
    const plan = planOf([assignmentOf('a', { step: 'carry', startSlot: 4, endSlot: 6 })]);
    const problem = problemOf([itemOf('a', [[carry]])]);
    expect(loadSeries(problem, plan, 'service', 'van', '')).toMatchObject({ used: slots(span(4, 6, 3)), available: slots(span(4, 8, 5)) });
    expect(bindingResources(problem, plan, HORIZON).use.find(({ kind }) => kind === 'service')).toMatchObject({ siteId: '', what: 'van', total: { used: 6, available: 20, permille: 300 } });
  });

  test('that nobody knows is null', () => {
    const problem = problemOf([]);
    for (const kind of LOAD_KINDS) expect(loadSeries(problem, planOf([]), kind, 'nothing', 's')).toBeNull();
    expect(loadSeries(problem, planOf([]), 'station', 'rinse', 'elsewhere')).toBeNull();
  });

  test('adds up to what the summary of resources says, in every plan of a generated incident', () => {
    const { problem } = generateIncident({ preset: 'overload-1.5', items: 120, seed: 3, overrides: { batches: true } });
    const plan = buildPlan(problem, { seed: 1, iterations: 0 });
    const { use } = bindingResources(problem, plan, 7);
    expect(use.length).toBeGreaterThan(5);
    for (const { siteId, kind, what, total, periods } of use) {
      const series = loadSeries(problem, plan, kind, what, siteId)!;
      const sum = (values: number[], from: number, to: number) => values.slice(from, to).reduce((all, value) => all + value, 0);
      for (const { from, to, used, available } of [total, ...periods]) expect([sum(series.used, from, to), sum(series.available, from, to)]).toEqual([used, available]);
      // The planner overdraws nothing; what had begun may.
      if (problem.fixed.length === 0) for (const stretch of loadStretches(series)) expect(stretch.used).toBeLessThanOrEqual(stretch.available);
    }
  });

  test('in stretches is the same load, and neighbours differ', () => {
    fc.assert(fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 1 })), { minLength: 1, maxLength: 40 }), fc.nat(45), fc.nat(45), (pairs, from, to) => {
      const series = { used: pairs.map(([used]) => used), available: pairs.map(([, available]) => available) };
      const stretches = loadStretches(series, from, to);
      const spread = stretches.flatMap((stretch) => Array.from({ length: stretch.to - stretch.from }, () => [stretch.used, stretch.available]));
      expect(spread).toEqual(pairs.slice(from, Math.max(from, to)));
      for (let i = 1; i < stretches.length; i += 1) {
        expect(stretches[i]!.from).toBe(stretches[i - 1]!.to);
        expect([stretches[i]!.used, stretches[i]!.available]).not.toEqual([stretches[i - 1]!.used, stretches[i - 1]!.available]);
      }
    }));
  });
});

describe('the rows of work', () => {
  test('never hold two things at a time, and are as few as there is work at once', () => {
    fc.assert(fc.property(fc.array(fc.tuple(fc.nat(50), fc.integer({ min: 1, max: 12 })), { maxLength: 40 }), (pairs) => {
      const spans = pairs.map(([from, length]) => ({ from, to: from + length }));
      const lanes = lanesOf(spans);
      for (const [i, a] of spans.entries()) for (const [j, b] of spans.entries()) if (i < j && a.from < b.to && b.from < a.to) expect(lanes[i]).not.toBe(lanes[j]);
      const atOnce = Math.max(0, ...spans.map(({ from }) => spans.filter((other) => other.from <= from && other.to > from).length));
      expect(Math.max(-1, ...lanes) + 1).toBe(atOnce);
    }));
  });
});
