import { describe, expect, test } from '@jest/globals';
import { buildProblem, type InputWish, type PlanInput, type PlannedStep } from '#application';
import { buildPlan, checkProblem, validatePlan } from '#planning';
import { careStep, FREEZE, HOUR, input, item, SEVEN, TREAT } from './support/small-input.js';

const build = (rows: PlanInput, nowMs = SEVEN) => buildProblem(rows, { nowMs });
const wish = (kind: InputWish['kind'], change: Partial<InputWish> = {}): InputWish => ({ id: `${kind}-wish`, itemId: 'thing', kind, stationId: null, step: null, disposition: null, notBeforeMs: null, pinned: null, ...change });
const planned = (step: PlannedStep['step'], atMs: number, change: Partial<PlannedStep> = {}): PlannedStep => ({ position: 0, step, disposition: 'treat', stationId: 'bath', personIds: ['ann'], dryingPlaceId: null, freezerId: null, startsAtMs: atMs, endsAtMs: atMs + HOUR, ...change });

/** A route of one look of ten minutes, which counts as a quarter of an hour. */
const LOOK = { disposition: 'treat' as const, needs: 0, steps: [careStep('assess', { stabilises: true })] };
const looked = (change: Partial<PlanInput> = {}) => input({ items: [item({ options: [LOOK] })], ...change });
const pinnedAt = (step: PlannedStep) => looked({ wishes: [wish('pin', { pinned: [step] })] });

describe('a wish becomes', () => {
  test('a thing that is offered first', () => {
    expect(build(input({ wishes: [wish('first')] })).problem.items[0]).toMatchObject({ id: 'thing', first: true });
    expect(build(input()).problem.items[0]).not.toHaveProperty('first');
  });

  test('a moment before which nothing of it begins, rounded up to a slot, and never one before it is free', () => {
    expect(build(input({ wishes: [wish('not-before', { notBeforeMs: SEVEN + HOUR + 1 })] })).problem.items[0]!.releaseSlot).toBe(5);
    expect(build(input({ wishes: [wish('not-before', { notBeforeMs: SEVEN - HOUR })] })).problem.items[0]!.releaseSlot).toBe(0);
  });

  test('a station that is barred for one step, or for all', () => {
    const barredOf = (step: InputWish['step']) => build(input({ wishes: [wish('bar-station', { stationId: 'bath', step })] })).problem.items[0]!.options[0]!.steps.map(({ barredStationIds }) => barredStationIds ?? []);
    expect(barredOf('rinse')).toEqual([[], ['bath'], [], []]);
    expect(barredOf(null)).toEqual([['bath'], ['bath'], ['bath'], ['bath']]);
  });

  test('a way that is not offered; without any left the thing is listed, and what is safe already needs none', () => {
    const without = (...ways: ('treat' | 'hold-frozen')[]) => ({ wishes: ways.map((disposition, i) => wish('bar-way', { id: `bar-${i}`, disposition })) });
    expect(build(input(without('treat'))).problem.items[0]!.options.map(({ disposition }) => disposition)).toEqual(['hold-frozen']);
    expect(build(input(without('treat', 'hold-frozen')))).toMatchObject({ problem: { items: [] }, leftOut: [{ itemId: 'thing', blockedBy: { kind: 'wish', what: '' } }] });
    expect(build(input({ ...without('treat', 'hold-frozen'), items: [item({ stabilisedAtMs: SEVEN - HOUR })] }))).toMatchObject({ problem: { items: [] }, leftOut: [] });
  });
});

describe('a pin', () => {
  test('is the same beginning, place and people, for as long as it takes now, and the planner keeps it', () => {
    const built = build(pinnedAt(planned('assess', SEVEN + 5 * HOUR)));
    expect(built.lapsed).toEqual([]);
    expect(built.problem.items[0]!.pinned).toEqual([{ itemId: 'thing', option: 0, position: 0, step: 'assess', disposition: 'treat', batchId: null, stationId: 'bath', personIds: ['ann'], dryingPlaceId: null, freezerId: null, startSlot: 20, endSlot: 21 }]);
    expect(checkProblem(built.problem)).toEqual([]);
    const plan = buildPlan(built.problem, { seed: 1, iterations: 5 });
    expect(validatePlan(built.problem, plan)).toEqual([]);
    expect(plan.assignments).toMatchObject([{ itemId: 'thing', startSlot: 20, stationId: 'bath', personIds: ['ann'] }]);
  });

  test('counts its option among those that are left when a way before it was ruled out', () => {
    const rows = input({ wishes: [wish('bar-way', { disposition: 'treat' }), wish('pin', { pinned: [planned('wrap', SEVEN + 3 * HOUR, { disposition: 'hold-frozen' }), planned('freeze', SEVEN + 4 * HOUR, { disposition: 'hold-frozen', stationId: null, freezerId: 'chest' })] })], items: [item({ options: [TREAT, { ...FREEZE, steps: [careStep('wrap'), careStep('freeze', { zone: 'cold', stabilises: true })] }] })] });
    const { problem, lapsed } = build(rows);
    expect(lapsed).toEqual([]);
    expect(problem.items[0]!.pinned).toMatchObject([{ option: 0, position: 0, step: 'wrap' }, { option: 0, position: 1, step: 'freeze', freezerId: 'chest' }]);
  });

  test.each([
    ['its way is not open any more', looked({ wishes: [wish('pin', { pinned: [planned('assess', SEVEN + HOUR, { disposition: 'refer' })] })] }), /^the way/],
    ['everything pinned is done', pinnedAt(planned('rinse', SEVEN + HOUR)), 'what was pinned is done'],
    ['a step came in between', input({ wishes: [wish('pin', { pinned: [planned('rinse', SEVEN + HOUR)] })] }), 'the steps that are left are not those that were pinned'],
    ['its moment passed', pinnedAt(planned('assess', SEVEN - HOUR)), 'the moment that was pinned passed before it was begun'],
    ['it may not begin so soon', looked({ wishes: [wish('pin', { pinned: [planned('assess', SEVEN + HOUR)] }), wish('not-before', { notBeforeMs: SEVEN + 2 * HOUR })] }), 'it is not free yet at the moment that was pinned'],
    ['it takes another crew', pinnedAt(planned('assess', SEVEN + HOUR, { personIds: ['ann', 'ben'] })), 'it takes another number of people now than was pinned'],
    ['its station is gone', pinnedAt(planned('assess', SEVEN + HOUR, { stationId: 'shut' })), 'the station that was pinned is not there any more'],
    ['its people are gone', pinnedAt(planned('assess', SEVEN + HOUR, { personIds: ['ben'] })), 'a person who was pinned is not there any more'],
    ['its station was ruled out', looked({ wishes: [wish('pin', { pinned: [planned('assess', SEVEN + HOUR)] }), wish('bar-station', { stationId: 'bath' })] }), 'the station that was pinned has been ruled out for it'],
  ])('falls with the reason when %s, and the thing is planned without it', (_, rows, why) => {
    const { problem, lapsed } = build(rows);
    expect(lapsed).toEqual([{ wishId: 'pin-wish', why: expect.objectContaining({ text: typeof why === 'string' ? why : expect.stringMatching(why) }) }]);
    expect(problem.items).toHaveLength(1);
    expect(problem.items[0]).not.toHaveProperty('pinned');
  });
});

describe('the plan in force', () => {
  const rows = (published: PlanInput['published']) => input({ ...(published && { published }) });
  const of = (step: PlannedStep['step'], atMs: number, change: Partial<PlannedStep & { itemId: string }> = {}) => ({ itemId: 'thing', ...planned(step, atMs), ...change });

  test('is none before the first', () => expect(build(rows(undefined)).problem).not.toHaveProperty('previous'));

  test('is what is still ahead of a thing on a way that is still open, in the slots of the new problem', () => {
    const { previous } = build(rows([of('blot', SEVEN + 3 * HOUR), of('assess', SEVEN - HOUR), of('tag', SEVEN + HOUR), of('rinse', SEVEN + HOUR, { disposition: 'refer' }), of('rinse', SEVEN + HOUR, { itemId: 'gone' })])).problem;
    expect(previous!.steps.map(({ itemId, step, startSlot, endSlot }) => [itemId, step, startSlot, endSlot])).toEqual([['thing', 'assess', -4, 0], ['thing', 'blot', 12, 16]]);
  });

  test('holds for an hour, and for as long as the network says', () => {
    expect(build(rows([])).problem.previous).toEqual({ steps: [], holdBeforeSlot: 4 });
    const planning = { thickFactor: 2, longestDryingH: 72, shortestDryingH: 1, nominalAirTempC: 20, nominalRelativeHumidityPct: 60, holdMin: 25, bathTakes: 24, ridesOffered: 2 };
    expect(buildProblem(rows([]), { nowMs: SEVEN, planning }).problem.previous!.holdBeforeSlot).toBe(1);
  });
});

describe('small things share a bath', () => {
  const rinse = (change: Parameters<typeof item>[0]) => build(input({ items: [item(change)] })).problem.items[0]!.options[0]!.steps.find(({ step }) => step === 'rinse')!.batch;

  test.each([
    ['one print', 'print-10x15', 1, 1], ['a lot of twenty prints', 'print-10x15', 20, 20], ['a sheet', 'a4-sheet', 1, 4], ['two garments', 'garment', 2, 24],
  ])('%s takes its share of one', (_, sizeClass, count, units) => {
    expect(rinse({ sizeClass, count, bathGroup: 'textile-plain-white/fresh-water' })).toEqual({ group: 'hall textile-plain-white/fresh-water', units, mostUnits: 24 });
  });

  test('what may bleed, what is large, and what fills more than a bath is rinsed alone', () => {
    expect([rinse({ bathGroup: null }), rinse({ sizeClass: 'double-quilt', bathGroup: 'a' }), rinse({ count: 3, bathGroup: 'a' })]).toEqual([undefined, undefined, undefined]);
  });

  test('no step but the rinse is shared', () => {
    const steps = build(input({ items: [item({ bathGroup: 'a' })] })).problem.items[0]!.options.flatMap((option) => option.steps);
    expect(steps.filter(({ batch }) => batch !== undefined).map(({ step }) => step)).toEqual(['rinse']);
  });

  test('two of one group and site are done together where one crew is all there is, and never with those of another', () => {
    const people = ['ann', 'ben'].map((id) => ({ id, siteId: 'hall', skills: ['lead' as const], restrictions: [], respiratorFitUntil: null, shifts: [{ fromMs: SEVEN, toMs: SEVEN + 12 * HOUR }] }));
    const rinseOnly = { disposition: 'treat' as const, needs: 0, steps: [careStep('rinse', { crew: 2, minutesPerPiece: 20, stabilises: true })] };
    const of = (id: string, bathGroup: string) => item({ id, bathGroup, options: [rinseOnly], doneSteps: ['assess'] });
    const { problem } = build(input({ people, items: [of('a', 'whites'), of('b', 'whites'), of('c', 'colours')] }));
    const plan = buildPlan(problem, { seed: 1, iterations: 20 });
    expect(validatePlan(problem, plan)).toEqual([]);
    const [a, b, c] = ['a', 'b', 'c'].map((id) => plan.assignments.find(({ itemId }) => itemId === id)!);
    expect(a!.batchId).not.toBeNull();
    expect(b).toMatchObject({ batchId: a!.batchId, startSlot: a!.startSlot, stationId: a!.stationId, personIds: a!.personIds });
    expect(c!.batchId).not.toBe(a!.batchId);
  });
});
