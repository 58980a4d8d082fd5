import { describe, expect, test } from '@jest/globals';
import { buildPlan, checkProblem, explainItem, type FixedUse, type PlanAssignment, type PlanCompany, type PlanItem, type PlanOption, type PlanProblem, validatePlan } from '#planning';
import { item, smallProblem, treat } from './support/small.builder.js';

/** Drying is not the bottleneck of these problems: what may lie where is. */
const COMPANIES: PlanCompany[] = [{ id: 'clean', notWith: {} }, { id: 'dye', notWith: { tiers: ['clean'] } }, { id: 'mould', notWith: { tiers: ['clean', 'dye'], 'side-by-side': ['clean', 'dye'], frozen: ['mould'] } }];
const BUDGET = { seed: 1, iterations: 50 };

function dryingAs(company: string | undefined, option: PlanOption = treat): PlanOption {
  return { ...option, steps: option.steps.map((step) => (step.drying === null || company === undefined ? step : { ...step, company })) };
}

function thing(id: string, company?: string, overrides: Partial<PlanItem> = {}): PlanItem {
  return item(id, { options: [dryingAs(company)], ...overrides });
}

/** One place of 40 dm2 in air that takes everything, unless other places are given; one that rinses for each thing. */
function roomyProblem(items: PlanItem[], overrides: Partial<PlanProblem> = {}): PlanProblem {
  const base = smallProblem(items);
  const open = base.places[0]!.open;
  return {
    ...base, companies: COMPANIES,
    stations: base.stations.map((station) => ({ ...station, capacity: 9 })),
    people: Array.from({ length: 9 }, (_, i) => ({ ...base.people[0]!, id: `p${i}` })),
    rooms: base.rooms.map((room) => ({ ...room, removalGPerSlot: [{ from: 0, to: base.horizonSlots, limit: 1000 }] })),
    places: [{ id: 'rack', roomId: base.places[0]!.roomId, areaDm2: 40, open }],
    ...overrides,
  };
}

function dryingOf(problem: PlanProblem): Record<string, [place: string | null, from: number, to: number]> {
  expect(checkProblem(problem)).toEqual([]);
  const plan = buildPlan(problem, BUDGET);
  expect(validatePlan(problem, plan)).toEqual([]);
  return Object.fromEntries(plan.assignments.filter(({ step }) => step === 'dry').map(({ itemId, dryingPlaceId, startSlot, endSlot }) => [itemId, [dryingPlaceId, startSlot, endSlot]]));
}

function hanging(company: string | undefined, overrides: Partial<FixedUse> = {}): FixedUse {
  return { itemId: 'there', step: 'dry', stationId: null, personIds: [], dryingPlaceId: 'rack', areaDm2: 4, loadGPerSlot: 5, freezerId: null, volumeCl: 0, interval: { from: 0, to: 9 }, ...(company === undefined ? {} : { company }), ...overrides };
}

describe('things that must not lie together', () => {
  test('dry in one place only one after the other, and at the same time in two', () => {
    const things = [thing('a', 'clean'), thing('b', 'mould')];
    const one = dryingOf(roomyProblem(things));
    const [first, second] = Object.values(one).sort((x, y) => x[1] - y[1]);
    expect(second![1]).toBeGreaterThanOrEqual(first![2]);
    const base = roomyProblem(things);
    const two = dryingOf({ ...base, places: [...base.places, { ...base.places[0]!, id: 'screen' }] });
    expect(two['a']![1]).toBe(two['b']![1]);
    expect(two['a']![0]).not.toBe(two['b']![0]);
  });

  test('lie together where their places keep them apart, and not where water drips', () => {
    const things = [thing('a', 'clean'), thing('b', 'dye')];
    const base = roomyProblem(things);
    const side = dryingOf(base);
    expect(side['a']![1]).toBe(side['b']![1]);
    const tiers = dryingOf({ ...base, places: [{ ...base.places[0]!, closeness: 'tiers' }] });
    expect(tiers['a']![1]).not.toBe(tiers['b']![1]);
  });

  test('wait for what hangs there already; what nothing is said of waits for nobody', () => {
    const fixed = [hanging('clean')];
    expect(dryingOf(roomyProblem([thing('a', 'mould')], { fixed }))['a']![1]).toBe(9);
    expect(dryingOf(roomyProblem([thing('a', 'clean')], { fixed }))['a']![1]).toBe(2);
    expect(dryingOf(roomyProblem([thing('a')], { fixed }))['a']![1]).toBe(2);
    expect(dryingOf(roomyProblem([thing('a', 'mould')], { fixed: [hanging(undefined)] }))['a']![1]).toBe(2);
  });

  test('that hang together already are a fact and no violation; nothing is planned to them', () => {
    const fixed = [hanging('clean'), hanging('mould', { itemId: 'other' })];
    expect(dryingOf(roomyProblem([thing('a', 'clean')], { fixed }))['a']![1]).toBe(9);
  });

  test('may be of one company: a freezer for each', () => {
    const freeze = (company: string): PlanOption => ({ disposition: 'hold-frozen', steps: [{ ...treat.steps[2]!, step: 'freeze', zone: 'cold', freezer: { volumeCl: 3 }, stabilises: 'end', company }] });
    const base = roomyProblem([item('a', { options: [freeze('mould')] }), item('b', { options: [freeze('mould')] }), item('c', { options: [freeze('clean')] })]);
    const [rinse] = base.stations;
    const problem = { ...base, stations: [{ ...rinse!, id: 'cold', zone: 'cold' as const, steps: ['freeze' as const] }], freezers: [{ id: 'f1', siteId: 'hall', volumeCl: 90, open: base.places[0]!.open }] };
    const plan = buildPlan(problem, BUDGET);
    expect(validatePlan(problem, plan)).toEqual([]);
    expect(plan.unplanned).toMatchObject([{ blockedBy: { kind: 'company', what: 'f1' } }]);
    const two = { ...problem, freezers: [...problem.freezers, { ...problem.freezers[0]!, id: 'f2' }] };
    expect(buildPlan(two, BUDGET).unplanned).toEqual([]);
  });
});

describe('where company is what stands in the way', () => {
  const problem = roomyProblem([thing('a', 'mould', { deadlineSlot: 8 })], { fixed: [hanging('clean', { interval: { from: 0, to: 40 } })] });

  test('the plan says so, in which room, and a place of its own is offered', () => {
    const plan = buildPlan(problem, BUDGET);
    expect(plan.unplanned).toEqual([{ itemId: 'a', weight: 5, blockedBy: { kind: 'company', what: 'loft' } }]);
    expect(explainItem(problem, plan, 'a').text[0]?.text).toContain('It is not in the plan');
    const helped = { ...problem, places: [...problem.places, { ...problem.places[0]!, id: 'screen' }] };
    expect(buildPlan(helped, BUDGET).unplanned).toEqual([]);
  });

  test('another place is passed over for it, and the explanation says why', () => {
    const base = roomyProblem([thing('a', 'mould')], { fixed: [hanging('clean', { interval: { from: 0, to: 40 } })] });
    const two = { ...base, places: [...base.places, { ...base.places[0]!, id: 'screen' }] };
    const plan = buildPlan(two, BUDGET);
    const drying = explainItem(two, plan, 'a').steps.find(({ step }) => step === 'dry');
    expect(drying?.alternatives).toEqual([{ kind: 'drying-place', id: 'rack', because: 'company' }]);
  });
});

describe('the check of a problem', () => {
  test('names companies that are not there, and ways of being together that are none', () => {
    const faults = checkProblem({
      ...roomyProblem([thing('a', 'moss')], { fixed: [hanging('lichen')] }),
      companies: [{ id: 'clean', notWith: { tiers: ['fern'], pressed: [] } as never }],
      places: [{ ...roomyProblem([]).places[0]!, closeness: 'pressed' as never }],
    }).map(({ path, text }) => `${path} ${text}`);
    expect(faults).toEqual([
      expect.stringContaining('fern'), expect.stringContaining('"pressed"'), expect.stringContaining('places[0]'), expect.stringContaining('moss'), expect.stringContaining('lichen'),
    ]);
  });

  test('a plan that mixes companies is refused by the validator, whoever came first', () => {
    const two = roomyProblem([thing('a', 'clean'), thing('b', 'mould')], { late: 'plan' });
    const plan = buildPlan(two, BUDGET);
    const together: PlanAssignment[] = plan.assignments.map((one) => (one.step === 'dry' ? { ...one, startSlot: 2, endSlot: 12 } : one));
    expect(validatePlan(two, { ...plan, assignments: together }).map(({ rule }) => rule)).toContain('company');
  });
});
