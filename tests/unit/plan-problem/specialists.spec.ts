import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildProblem, summarise, type InputItem, type InputOption, type InputSpecialist, type PlanInput } from '#application';
import { MATERIAL_CLASSES } from '#care';
import { buildPlan, checkProblem, explainItem, type PlanProblem, validatePlan } from '#planning';
import { anyRows, NOW_MS } from './support/rows.arbitrary.js';
import { careStep, FREEZE, HOUR, input, item, REFER, SEVEN, TREAT } from './support/small-input.js';

const studio = (change: Partial<InputSpecialist> = {}): InputSpecialist => ({ id: 'studio', code: 'SP1', name: 'Paper studio', piecesAtOnce: 1, hoursPerPiece: 6, materialClasses: [], openings: [], ...change });
const build = (specialists: InputSpecialist[], change: Partial<InputItem> = {}) => buildProblem(input({ specialists, items: [item({ materialClass: 'paper-uncoated', ...change })] }), { nowMs: SEVEN });
const waysOf = ({ items }: PlanProblem) => (items[0]?.options ?? []).map(({ disposition, steps }) => [disposition, steps.flatMap(({ services = [] }) => services.map(({ serviceId }) => serviceId)).join()].join(':'));
const ways = (specialists: InputSpecialist[], change: Partial<InputItem> = {}) => waysOf(build(specialists, change).problem);
const referralOf = (specialists: InputSpecialist[], change: Partial<InputItem> = {}) => build(specialists, { options: [REFER], ...change }).problem.items[0]!.options[0]!.steps.at(-1)!;

describe('a specialist whose time is known', () => {
  test('is a service of so many things at once, open when a thing can be there and else throughout', () => {
    const twice = [studio({ piecesAtOnce: 3 }), studio({ id: 'another', code: 'SP2', openings: [{ fromMs: SEVEN + HOUR, toMs: SEVEN + 3 * HOUR }] })];
    expect(build(twice).problem.services).toEqual([
      { id: 'another', kind: 'specialist', capacity: 1, open: [{ from: 4, to: 12 }] }, { id: 'studio', kind: 'specialist', capacity: 3, open: [{ from: 0, to: 480 }] },
    ]);
  });

  test('gives the referral an end: a step without station and crew that makes the thing safe when it begins', () => {
    const { options } = build([studio()], { options: [REFER] }).problem.items[0]!;
    expect(options).toMatchObject([{ disposition: 'refer', steps: [{ step: 'pack', stabilises: null }, { step: 'refer', durationSlots: 24, noStation: true, crew: 0, skill: null, services: [{ serviceId: 'studio', units: 1 }], stabilises: 'start' }] }]);
  });

  test('takes the hours of all pieces of a lot, and what takes days may still begin in the first half of the window', () => {
    expect(referralOf([studio()], { count: 3 }).durationSlots).toBe(72);
    expect(referralOf([studio({ hoursPerPiece: 700 })]).durationSlots).toBe(480 - 144);
  });

  test('makes the referral a way among the others, in its place of the triage', () => {
    expect(ways([studio()], { options: [TREAT, REFER, FREEZE] })).toEqual(['treat:', 'refer:studio', 'hold-frozen:']);
    expect(ways([], { options: [TREAT, REFER, FREEZE] })).toEqual(['treat:', 'hold-frozen:']);
  });

  test('is one of at most three ways, in the order of their codes', () => {
    const many = ['SP4', 'SP2', 'SP1', 'SP3'].map((code) => studio({ id: code.toLowerCase(), code }));
    expect(ways(many, { options: [REFER, TREAT] })).toEqual(['refer:sp1', 'refer:sp2', 'refer:sp3', 'treat:']);
  });

  test('takes only the materials that were said, and what nobody has named only where all are taken', () => {
    const paper = studio({ materialClasses: ['paper-uncoated'] });
    expect(ways([paper], { options: [TREAT, REFER] })).toEqual(['treat:', 'refer:studio']);
    expect(ways([paper], { options: [TREAT, REFER], materialClass: 'textile-silk' })).toEqual(['treat:']);
    const { materialClass: _, ...unnamed } = item({ options: [TREAT, REFER] });
    expect(waysOf(buildProblem(input({ specialists: [paper], items: [unnamed] }), { nowMs: SEVEN }).problem)).toEqual(['treat:']);
  });

  test('gets what is ready to go, which else waits for its appointment', () => {
    const ready: Partial<InputItem> = { options: [REFER], doneSteps: ['pack'] };
    expect(build([], ready).leftOut).toMatchObject([{ blockedBy: { kind: 'appointment' } }]);
    expect(build([studio()], ready).problem.items[0]!.options).toMatchObject([{ steps: [{ step: 'refer', stabilises: 'start' }] }]);
  });

  test('gets nothing that something is missing for, that is safe on a better way, or that was there in this round', () => {
    expect(ways([studio()], { options: [TREAT, { ...REFER, needs: 1 }] })).toEqual(['treat:']);
    expect(ways([studio()], { options: [TREAT, REFER], stabilisedAtMs: SEVEN - HOUR })).toEqual(['treat:']);
    expect(ways([studio()], { options: [TREAT, REFER], doneSteps: ['refer'] })).toEqual(['treat:']);
  });

  test('is ruled out with the way, whoever it would go to', () => {
    const wish = { id: 'wish', itemId: 'thing', kind: 'bar-way' as const, stationId: null, step: null, disposition: 'refer' as const, notBeforeMs: null, pinned: null };
    const rows = input({ specialists: [studio(), studio({ id: 'other', code: 'SP2' })], items: [item({ options: [TREAT, REFER] })], wishes: [wish] });
    expect(waysOf(buildProblem(rows, { nowMs: SEVEN }).problem)).toEqual(['treat:']);
  });

  test('what frozen things are thawed for goes on to them', () => {
    const frozen: Partial<InputItem> = { stage: 'held-frozen', keeper: { kind: 'freezer', id: 'chest' }, stabilisedAtMs: SEVEN - HOUR, disposition: 'refer', nextStep: 'thaw', override: 'refer', options: [REFER] };
    expect(build([studio()], frozen).problem.items[0]!.options[0]!.steps.map(({ step }) => step)).toEqual(['thaw', 'pack', 'refer']);
  });
});

describe('what is with a specialist already', () => {
  const there = (sentHoursAgo: number[], change: Partial<InputSpecialist> = {}) => studio({ there: sentHoursAgo.map((hours, i) => ({ itemId: `sent-${i}`, count: 1, sinceMs: SEVEN - hours * HOUR })), ...change });
  const held = (specialist: InputSpecialist) => build([specialist]).problem.fixed.filter(({ step }) => step === 'refer').map(({ itemId, interval, services }) => [itemId, interval.from, interval.to, services?.[0]?.serviceId]);

  test('holds its place on the bench for the hours that are left, one after the other where there is one place', () => {
    expect(held(there([2]))).toEqual([['sent-0', 0, 16, 'studio']]);
    expect(held(there([2, 1]))).toEqual([['sent-0', 0, 16, 'studio'], ['sent-1', 16, 40, 'studio']]);
    expect(held(there([2, 1], { piecesAtOnce: 2 }))).toEqual([['sent-0', 0, 16, 'studio'], ['sent-1', 0, 20, 'studio']]);
  });

  test('holds none when its time is over, even if it has not come back', () => {
    expect(held(there([7]))).toEqual([]);
    expect(held(there([130], { hoursPerPiece: 200 }))).toEqual([['sent-0', 0, 280, 'studio']]);
  });

  test('keeps the next one waiting', () => {
    const { problem } = build([there([2])], { options: [REFER] });
    const plan = buildPlan(problem, { seed: 1, iterations: 5 });
    expect(validatePlan(problem, plan)).toEqual([]);
    expect(plan.assignments.find(({ step }) => step === 'refer')?.startSlot).toBe(16);
  });
});

describe('plans', () => {
  const dated = (id: string, hours: number): InputItem => item({ id, options: [REFER], materialClass: 'paper-uncoated', startByMs: SEVEN + hours * HOUR, deadlinesMs: [SEVEN + hours * HOUR] });
  const rows = (change: Partial<PlanInput> = {}): PlanInput => input({ specialists: [studio()], items: [dated('first', 2), dated('second', 5)], ...change });

  test('of two things for one place on the bench one is in time, and of the other it is told who has no time for it', () => {
    const built = buildProblem(rows(), { nowMs: SEVEN });
    const plan = buildPlan(built.problem, { seed: 1, iterations: 20 });
    expect(validatePlan(built.problem, plan)).toEqual([]);
    expect(plan.assignments.filter(({ step }) => step === 'refer').map(({ itemId }) => itemId)).toHaveLength(1);
    expect(plan.unplanned).toMatchObject([{ blockedBy: { kind: 'service', what: 'studio' } }]);
    expect(summarise(rows(), built, plan).blocked).toMatchObject([{ kind: 'service', what: 'Paper studio' }]);
    expect(explainItem(built.problem, plan, plan.unplanned[0]!.itemId).passedOver).toMatchObject([{ disposition: 'refer', blockedBy: { kind: 'service', what: 'studio' } }]);
  });

  test('a second specialist takes the other one, and the next plan leaves each where it is promised', () => {
    const two = [studio(), studio({ id: 'second-studio', code: 'SP2' })];
    const first = planOf(rows({ specialists: two }));
    expect(first.plan.unplanned).toEqual([]);
    const published = publishedOf(first);
    // The other way round by code: without the plan in force each would go to the other.
    const turned = [studio({ code: 'SP2' }), studio({ id: 'second-studio', code: 'SP1' })];
    const next = planOf(rows({ specialists: turned, published }));
    expect(specialistsOf(next)).toEqual(specialistsOf(first));
    expect(next.plan.objective[2]).toBe(0);
    expect(specialistsOf(planOf(rows({ specialists: turned })))).not.toEqual(specialistsOf(first));
  });

  test('a pin goes to the specialist that was pinned, and ends when they cannot take it any more', () => {
    const two = [studio(), studio({ id: 'second-studio', code: 'SP2' })];
    const pinned = publishedOf(planOf(rows({ items: [dated('first', 5)], specialists: [studio({ id: 'second-studio', code: 'SP2' })] })));
    const wishes = [{ id: 'pin', itemId: 'first', kind: 'pin' as const, stationId: null, step: null, disposition: null, notBeforeMs: null, pinned }];
    const kept = planOf(rows({ items: [dated('first', 5)], specialists: two, wishes }));
    expect(specialistsOf(kept)).toEqual({ first: 'second-studio' });
    const gone = buildProblem(rows({ items: [dated('first', 5)], specialists: [studio()], wishes }), { nowMs: SEVEN });
    expect(gone.lapsed).toMatchObject([{ wishId: 'pin', why: { text: 'the specialist who was pinned cannot take it any more' } }]);
  });

  test('a thing that could be treated in time as well is not sent away for it', () => {
    const { plan } = planOf(rows({ items: [item({ options: [{ ...TREAT, steps: [careStep('assess', { stabilises: true })] }, REFER] })] }));
    expect(plan.assignments.map(({ disposition }) => disposition)).toEqual(['treat']);
  });
});

type Made = ReturnType<typeof planOf>;

function planOf(rows: PlanInput) {
  const { problem } = buildProblem(rows, { nowMs: SEVEN });
  const plan = buildPlan(problem, { seed: 1, iterations: 20 });
  expect(validatePlan(problem, plan)).toEqual([]);
  return { problem, plan };
}

const serviceOf = ({ problem }: Made, { itemId, option, position }: Made['plan']['assignments'][number]): string | null =>
  problem.items.find(({ id }) => id === itemId)!.options[option]!.steps[position]!.services?.[0]?.serviceId ?? null;

function specialistsOf(made: Made): Record<string, string | null> {
  return Object.fromEntries(made.plan.assignments.filter(({ step }) => step === 'refer').map((one) => [one.itemId, serviceOf(made, one)]));
}

/** As the rows of a published plan come back. */
function publishedOf(made: Made): NonNullable<PlanInput['published']> {
  const momentOf = (slot: number) => made.problem.originMs + slot * made.problem.slotMinutes * 60_000;
  return made.plan.assignments.map((one) => ({
    itemId: one.itemId, position: one.position, step: one.step as 'pack', disposition: one.disposition, stationId: one.stationId, personIds: one.personIds, dryingPlaceId: one.dryingPlaceId, freezerId: one.freezerId,
    serviceId: serviceOf(made, one), startsAtMs: momentOf(one.startSlot), endsAtMs: momentOf(one.endSlot),
  }));
}

const near = fc.integer({ min: NOW_MS - 4 * 86_400_000, max: NOW_MS + 9 * 86_400_000 });
const anySpecialists: fc.Arbitrary<InputSpecialist[]> = fc.array(fc.record({
  piecesAtOnce: fc.integer({ min: 1, max: 4 }), hoursPerPiece: fc.double({ min: 0.05, max: 720, noNaN: true }), materialClasses: fc.subarray([...MATERIAL_CLASSES], { maxLength: 3 }),
  openings: fc.array(fc.record({ fromMs: near, toMs: near }), { maxLength: 3 }),
  there: fc.array(fc.record({ itemId: fc.constantFrom('a', 'b', 'c'), count: fc.integer({ min: 1, max: 50 }), sinceMs: near }), { maxLength: 5 }),
}), { maxLength: 4 }).map((list) => list.map((one, i) => ({ ...one, id: `specialist-${i}`, code: `SP${(i * 7) % 4}`, name: `Studio ${i}` })));
const anyOfThem = fc.tuple(anyRows, anySpecialists).map(([rows, specialists]) => ({ ...rows, specialists }));
const referrals: InputOption[] = [{ ...REFER, steps: [careStep('refer', { stabilises: true })] }, REFER];

describe('any rows with specialists', () => {
  test('become a sound problem and a plan without a violation', () => {
    fc.assert(fc.property(anyOfThem, fc.constantFrom(...referrals), (rows, referral) => {
      const items = rows.items.map((one, i) => (i % 2 === 0 ? { ...one, options: [...one.options.filter(({ disposition }) => disposition !== 'refer'), referral] } : one));
      const { problem } = buildProblem({ ...rows, items }, { nowMs: NOW_MS, windowHours: 24, tailHours: 24 });
      expect(checkProblem(problem)).toEqual([]);
      const plan = buildPlan(problem, { seed: 1, iterations: 3 });
      expect(validatePlan(problem, plan)).toEqual([]);
    }), { numRuns: 150 });
  });

  test('in another order become the same problem, and without specialists the problem of before', () => {
    fc.assert(fc.property(anyOfThem, (rows) => {
      const problem = buildProblem(rows, { nowMs: NOW_MS });
      expect(buildProblem({ ...rows, specialists: [...rows.specialists].reverse(), items: [...rows.items].reverse() }, { nowMs: NOW_MS })).toEqual(problem);
      const { specialists: _, ...bare } = rows;
      expect(buildProblem({ ...rows, specialists: [] }, { nowMs: NOW_MS })).toEqual(buildProblem(bare, { nowMs: NOW_MS }));
    }), { numRuns: 60 });
  });

  test('every referral that a problem holds is to somebody who takes it', () => {
    fc.assert(fc.property(anyOfThem, (rows) => {
      const { problem } = buildProblem(rows, { nowMs: NOW_MS });
      for (const { options } of problem.items) for (const { steps } of options) for (const step of steps.filter((one) => one.step === 'refer')) expect(step.services).toHaveLength(1);
    }), { numRuns: 60 });
  });
});
