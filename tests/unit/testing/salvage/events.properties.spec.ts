/** Work that goes otherwise than planned, on generated incidents and with real plans. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildPlan, checkProblem, type PlanAssignment, type PlanItem, type PlanProblem, type PlanStep, validatePlan } from '#planning';
import { canonicalJson } from '../../../../libs/testing/src/salvage/digest.js';
import { applyEvent, eventScript, type IncidentEvent } from '../../../../libs/testing/src/salvage/events.js';
import { generateIncident } from '../../../../libs/testing/src/salvage/generate-incident.js';
import { adoptPlan, startWork, type WorkState, workOff } from '../../../../libs/testing/src/salvage/work-off.js';

const seeds = fc.integer({ min: 0, max: 2 ** 31 - 1 });
const presets = fc.constantFrom('base', 'overload-3', 'freezer-full', 'freezer-free', 'degenerate-zero-items', 'degenerate-one-item', 'degenerate-capacity-one' as const);

describe('an event script', () => {
  test('is the same for the same seed and problem, another for another seed, and begins like a longer one', () => {
    fc.assert(fc.property(presets, seeds, (preset, seed) => {
      const { problem } = generateIncident({ preset, items: 12, seed });
      const script = eventScript({ seed, length: 30, problem });
      expect(canonicalJson(eventScript({ seed, length: 30, problem }))).toBe(canonicalJson(script));
      expect(eventScript({ seed, length: 60, problem }).slice(0, 30)).toEqual(script);
      expect(eventScript({ seed: seed + 1, length: 30, problem })).not.toEqual(script);
    }), { numRuns: 20 });
  });

  test('of 1,000 events fits into a horizon of 21 days, one event every 10 to 40 minutes, of every kind', () => {
    const { problem } = generateIncident({ preset: 'base', items: 50, seed: 1 });
    const script = eventScript({ seed: 1, length: 1_000, problem });
    expect(script).toHaveLength(1_000);
    expect(new Set(script.map(({ kind }) => kind)).size).toBe(10);
    script.slice(1).forEach(({ atSlot }, i) => {
      expect(atSlot).toBeGreaterThanOrEqual(script[i]!.atSlot);
      expect(atSlot - script[i]!.atSlot).toBeLessThanOrEqual(3);
    });
    expect(script.at(-1)!.atSlot).toBeLessThan(problem.horizonSlots);
  });
});

describe('work under way', () => {
  test('is a sound planning problem after every event of a script, and can be planned again then', () => {
    fc.assert(fc.property(presets, seeds, fc.constantFrom('thaw-later', 'hold' as const), fc.boolean(), fc.constantFrom(1, 3), (preset, seed, freezing, rich, every) => {
      const { problem } = generateIncident({ preset, items: 14, seed, overrides: { freezing, batches: rich, falling: rich } });
      let state = startWork(problem);
      eventScript({ seed, length: 40, problem }).forEach((event, turn) => {
        if (turn % every === 0) {
          const plan = buildPlan(state.problem, { seed: 1, iterations: 0 });
          expect(validatePlan(state.problem, plan)).toEqual([]);
          state = adoptPlan(state, plan);
        }
        state = applyEvent(state, event);
        expect(checkProblem(state.problem)).toEqual([]);
        expect(state.passedSlots).toBe(event.atSlot);
      });
    }), { numRuns: 10 });
  });

  test('loses nothing: every item is to be planned, under way, done, or withdrawn', () => {
    fc.assert(fc.property(seeds, (seed) => {
      const { problem } = generateIncident({ preset: 'base', items: 20, seed });
      let state = startWork(problem);
      let expected = new Set(problem.items.map(({ id }) => id));
      for (const event of eventScript({ seed, length: 40, problem })) {
        const plan = buildPlan(state.problem, { seed: 1, iterations: 0 });
        state = applyEvent(adoptPlan(state, plan), event);
        if (event.kind === 'items-arrive') event.items.forEach(({ id }) => expected.add(id));
        if (event.kind === 'item-withdrawn') expected.delete(event.itemId);
        const last = new Map(plan.assignments.map((assignment) => [assignment.itemId, assignment]));
        const present = new Set(state.problem.items.map(({ id }) => id));
        const gone = [...expected].filter((id) => !present.has(id));
        // What is no longer to be planned had its last step begun before now.
        for (const id of gone) expect(last.get(id)?.step).toBe('pack');
        expected = present;
      }
    }), { numRuns: 5 });
  });

  test('is changed by no event in place', () => {
    const { problem } = generateIncident({ preset: 'base', items: 20, seed: 4 });
    const before = canonicalJson(problem);
    let state = startWork(problem);
    for (const event of eventScript({ seed: 4, length: 50, problem })) {
      const frozen = canonicalJson(state);
      const next = applyEvent(state, event);
      expect(canonicalJson(state)).toBe(frozen);
      state = next;
    }
    expect(canonicalJson(problem)).toBe(before);
  });
});

const DAY = [{ from: 0, to: 40 }];
const step = (kind: PlanStep['step'], durationSlots: number, change: Partial<PlanStep> = {}): PlanStep => ({ step: kind, zone: 'clean', durationSlots, crew: 1, skill: 'blotting', barredRestrictions: [], drying: null, freezer: null, stabilises: null, ...change });
const dry = step('dry', 10, { crew: 0, skill: null, drying: { areaDm2: 5, loadGPerSlot: 4, falling: [{ fromSlot: 5, loadGPerSlot: 2 }] }, stabilises: 'start' });
const treat = [step('blot', 4), dry, step('pack', 2)];
const freeze = step('freeze', 1, { zone: 'cold', freezer: { volumeCl: 9, leastSlots: 4 } });
const thaw = step('thaw', 2, { crew: 0, skill: null, noStation: true });
const item = (change: Partial<PlanItem> = {}): PlanItem => ({ id: 'a', siteId: 'hall', releaseSlot: 2, deadlineSlot: 20, weight: 1, stabilised: false, options: [{ disposition: 'treat', steps: treat }], ...change });

function house(items: PlanItem[]): PlanProblem {
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: 40, items, fixed: [],
    stations: [{ id: 'table', siteId: 'hall', zone: 'clean', steps: ['blot', 'pack'], capacity: 2, open: DAY }],
    people: [{ id: 'ada', siteId: 'hall', skills: ['blotting'], restrictions: [], shifts: [{ from: 0, to: 10 }, { from: 20, to: 40 }] }],
    rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 0, to: 40, limit: 10 }] }], places: [{ id: 'rack', roomId: 'loft', areaDm2: 5, open: DAY }],
    freezers: [{ id: 'chest', siteId: 'hall', volumeCl: 9, open: DAY }],
  };
}

function planned(steps: readonly PlanStep[], starts: readonly number[], option = 0): PlanAssignment[] {
  return steps.map((one, position) => ({
    itemId: 'a', option, position, step: one.step, disposition: option === 0 ? 'treat' : 'hold-frozen', batchId: null,
    stationId: one.drying || one.noStation ? null : 'table', personIds: one.crew > 0 ? ['ada'] : [], dryingPlaceId: one.drying ? 'rack' : null, freezerId: one.freezer ? 'chest' : null,
    startSlot: starts[position]!, endSlot: starts[position]! + one.durationSlots,
  }));
}

function at(slot: number, assignments: PlanAssignment[], items = [item()]): WorkState {
  return workOff(adoptPlan(startWork(house(items)), { assignments }), slot);
}

describe('time that moves on', () => {
  const plan = planned(treat, [4, 8, 20]);

  test('leaves an item that nobody has begun as it was, counted from now', () => {
    const { problem, plan: ahead } = at(4, plan);
    expect(problem).toMatchObject({ horizonSlots: 36, originMs: 4 * 15 * 60_000, fixed: [], items: [{ releaseSlot: 0, deadlineSlot: 16, stabilised: false }] });
    expect(problem.items[0]!.options).toEqual([{ disposition: 'treat', steps: treat }]);
    expect(ahead.map(({ startSlot }) => startSlot)).toEqual([0, 4, 16]);
    expect(problem.people[0]!.shifts).toEqual([{ from: 0, to: 6 }, { from: 16, to: 36 }]);
  });

  test('makes a fixed use of what has begun, and what is left of the route begins when it ends', () => {
    const { problem } = at(5, plan);
    expect(problem.fixed).toMatchObject([{ itemId: 'a', step: 'blot', stationId: 'table', personIds: ['ada'], interval: { from: -1, to: 3 } }]);
    expect(problem.items).toMatchObject([{ releaseSlot: 3, deadlineSlot: 15, options: [{ disposition: 'treat', steps: treat.slice(1) }] }]);
    expect(problem.previous).toMatchObject({ holdBeforeSlot: 4, steps: [{ step: 'dry', startSlot: 3, dryingPlaceId: 'rack' }, { step: 'pack', startSlot: 15, personIds: ['ada'] }] });
  });

  test('calls an item stabilised once it dries, with the load falling from where drying began', () => {
    const { problem } = at(10, plan);
    expect(problem.fixed).toMatchObject([{ step: 'dry', dryingPlaceId: 'rack', areaDm2: 5, loadGPerSlot: 4, falling: [{ fromSlot: 5, loadGPerSlot: 2 }], interval: { from: -2, to: 8 } }]);
    expect(problem.items).toMatchObject([{ stabilised: true, releaseSlot: 8, options: [{ steps: [{ step: 'pack' }] }] }]);
  });

  test('lets go of an item whose last step has begun, and of uses that are over', () => {
    expect(at(21, plan).problem).toMatchObject({ items: [], fixed: [{ step: 'pack', interval: { from: -1, to: 1 } }] });
    expect(at(22, plan).problem).toMatchObject({ items: [], fixed: [] });
  });

  test('stops short of the horizon', () => {
    expect(at(400, plan)).toMatchObject({ passedSlots: 39, problem: { horizonSlots: 1 } });
  });

  test('does the same in two strides as in one', () => {
    for (const between of [3, 4, 5, 9, 12]) expect(canonicalJson(workOff(at(between, plan), 15 - between))).toBe(canonicalJson(at(15, plan)));
  });
});

describe('a frozen item', () => {
  const route = [freeze, thaw, ...treat];
  const items = [item({ options: [{ disposition: 'treat', steps: treat }, { disposition: 'hold-frozen', steps: route }] })];
  const plan = planned(route, [3, 18, 20, 24, 34], 1);

  test('keeps its clock where it stood, and its volume until the thaw', () => {
    const { problem, plan: ahead } = at(10, plan, items);
    // Frozen from 4 on: six slots lain, four at least; of its 20 slots 4 are gone.
    expect(problem.items).toMatchObject([{ releaseSlot: 0, deadlineSlot: 16, stabilised: false, options: [{ disposition: 'hold-frozen' }] }]);
    expect(problem.items[0]!.options[0]!.steps).toMatchObject([{ step: 'freeze', durationSlots: 0, noStation: true, freezer: { volumeCl: 9, leastSlots: 1 } }, { step: 'thaw' }, { step: 'blot' }, { step: 'dry' }, { step: 'pack' }]);
    expect(ahead.map(({ position, startSlot, endSlot }) => [position, startSlot, endSlot])).toEqual([[0, 0, 0], [1, 8, 10], [2, 10, 14], [3, 14, 24], [4, 24, 26]]);
    expect(problem.previous!.steps.map(({ step: kind }) => kind)).toEqual(['thaw', 'blot', 'dry', 'pack']);
  });

  test('has its clock run again from the thaw on, in however many strides', () => {
    // Frozen from 4 to 18: the clock ends 14 slots later, at 34.
    for (const strides of [[19], [10, 9], [4, 1, 1, 13]]) {
      const state = strides.reduce((now, slots) => workOff(now, slots), adoptPlan(startWork(house(items)), { assignments: plan }));
      expect(state.problem).toMatchObject({ fixed: [{ step: 'thaw', interval: { from: -1, to: 1 } }], items: [{ releaseSlot: 1, deadlineSlot: 34 - 19 }] });
    }
  });

  test('lies on when a new plan has no place for it', () => {
    const lying = at(10, plan, items);
    expect(workOff(adoptPlan(lying, { assignments: [] }), 5).problem.items).toMatchObject([{ deadlineSlot: 16 }]);
  });

  test('that is frozen for good takes its volume until the horizon', () => {
    const held = { ...freeze, stabilises: 'end' as const };
    const { problem } = at(10, planned([held], [3], 0).map((one) => ({ ...one, disposition: 'hold-frozen' as const })), [item({ options: [{ disposition: 'hold-frozen', steps: [held] }] })]);
    expect(problem).toMatchObject({ items: [], fixed: [{ freezerId: 'chest', volumeCl: 9, interval: { from: -6, to: 30 } }] });
  });
});

describe('an event', () => {
  const plan = planned(treat, [4, 8, 20]);
  const after = (event: IncidentEvent) => applyEvent(adoptPlan(startWork(house([item()])), { assignments: plan }), event).problem;

  test('of an overrun keeps station, person and item for longer', () => {
    const problem = after({ atSlot: 5, kind: 'overrun', pick: 7, factorPct: 200 });
    expect(problem.fixed).toMatchObject([{ step: 'blot', interval: { from: -1, to: 7 } }]);
    expect(problem.items).toMatchObject([{ releaseSlot: 7 }]);
  });

  test('of an absence or a closure takes what is left of the time', () => {
    expect(after({ atSlot: 5, kind: 'volunteer-absent', personId: 'ada', forSlots: 16 }).people[0]!.shifts).toEqual([{ from: 16, to: 35 }]);
    expect(after({ atSlot: 5, kind: 'station-closed', stationId: 'table', forSlots: 6 }).stations[0]!.open).toEqual([{ from: 6, to: 35 }]);
  });

  test('of a helper who comes adds a person of the same skill while the house is open', () => {
    expect(after({ atSlot: 5, kind: 'volunteer-arrives', personId: 'bo', likeId: 'ada', forSlots: 8 }).people[1]).toEqual({ id: 'bo', siteId: 'hall', skills: ['blotting'], restrictions: [], shifts: [{ from: 0, to: 8 }] });
  });

  test('of a machine that fails takes two fifths of the drying, and gives it back when it returns', () => {
    const failed = applyEvent(startWork(house([item()])), { atSlot: 3, kind: 'dehumidifier-fails', roomId: 'loft' });
    expect(failed.problem.rooms[0]!.removalGPerSlot).toEqual([{ from: 0, to: 37, limit: 6 }]);
    expect(applyEvent(failed, { atSlot: 7, kind: 'dehumidifier-returns', roomId: 'loft' }).problem.rooms[0]!.removalGPerSlot).toEqual([{ from: 0, to: 33, limit: 10 }]);
  });

  test('of a worse item brings its deadline nearer, of a withdrawn one takes it out of plan and problem', () => {
    expect(after({ atSlot: 4, kind: 'item-worse', itemId: 'a', keepsPct: 50 }).items).toMatchObject([{ deadlineSlot: 8 }]);
    const problem = after({ atSlot: 4, kind: 'item-withdrawn', itemId: 'a' });
    expect([problem.items, problem.previous!.steps]).toEqual([[], []]);
  });

  test('of a freezer changes its volume', () => {
    expect(after({ atSlot: 4, kind: 'freezer-volume', freezerId: 'chest', volumeCl: 5 }).freezers[0]).toMatchObject({ volumeCl: 5 });
  });
});
