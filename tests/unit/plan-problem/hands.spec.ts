import { describe, expect, test } from '@jest/globals';
import { buildProblem, type InputItem, type InputStep, type PlanInput, type ProblemOptions } from '#application';
import { calibratePeople } from '#care';
import { calibrate } from '#climate';
import { buildPlan } from '#planning';
import { careStep, HOUR, input, item, SEVEN } from './support/small-input.js';

// What steps ask of people, by the checks that judge their reports: see tests/unit/care/people.spec.ts for the sources.

const MASK = ['N95 respirator', 'nitrile or other waterproof gloves'];
const SUIT = ['disposable coverall'];

/** The first step of an item that consists of one step. */
function stepOf(step: InputStep, change: Partial<InputItem> = {}, rows: Partial<PlanInput> = {}, options: Partial<ProblemOptions> = {}) {
  const { problem } = buildProblem(input({ ...rows, items: [item({ options: [{ disposition: 'treat', needs: 0, steps: [{ ...step, stabilises: true }] }], ...change })] }), { nowMs: SEVEN, ...options });
  return problem.items[0]!.options[0]!.steps[0]!;
}

function personOf(change: Partial<PlanInput['people'][number]>, rows: Partial<PlanInput> = {}, options: Partial<ProblemOptions> = {}) {
  return buildProblem(input({ people: [{ ...input().people[0]!, ...change }], ...rows }), { nowMs: SEVEN, ...options }).problem.people[0]!;
}

describe('respirators', () => {
  test('a step whose mask is asked for needs somebody fitted, one with a mask by choice or none does not', () => {
    expect(stepOf(careStep('surface-clean', { ppe: MASK })).needsFit).toBe(true);
    expect(stepOf(careStep('surface-clean', { ppe: ['N95 respirator until mould is ruled out'] })).needsFit).toBe(false);
    expect(stepOf(careStep('surface-clean')).needsFit).toBe(false);
  });

  test('a network that lets an N95 go without a fit test plans so', () => {
    const people = calibratePeople({ fitForRequiredMask: 0 });
    expect(stepOf(careStep('surface-clean', { ppe: MASK }), {}, {}, { people }).needsFit).toBe(false);
    expect(stepOf(careStep('surface-clean', { ppe: ['respirator with organic-vapour cartridge (fit-tested wearer)'] }), {}, {}, { people }).needsFit).toBe(true);
  });

  test('a fit is valid to the end of its last day in the zone of the network', () => {
    const untilOf = (respiratorFitUntil: string | null, timeZone = 'UTC') => personOf({ respiratorFitUntil }, { timeZone }).fitUntilSlot;
    // Slot 0 is 07:00 UTC on 9 May; the day ends 17 hours later in UTC, and 5 hours later in Auckland, which is 12 hours ahead.
    expect([untilOf('2026-05-09'), untilOf('2026-05-10')]).toEqual([68, 164]);
    expect(untilOf('2026-05-09', 'Pacific/Auckland')).toBe(20);
    expect([untilOf(null), untilOf('2026-05-08'), untilOf('2027-01-31')]).toEqual([0, 0, 480]);
  });
});

describe('hours', () => {
  test('nobody is planned for longer than they may work without a real break', () => {
    const long = { shifts: [{ fromMs: SEVEN, toMs: SEVEN + 10 * HOUR }, { fromMs: SEVEN + 12 * HOUR, toMs: SEVEN + 18 * HOUR }] };
    expect(personOf(long).shifts).toEqual([{ from: 0, to: 40 }, { from: 48, to: 60 }]);
    expect(personOf(long, {}, { people: calibratePeople({ consecutiveHoursMax: 8 }) }).shifts).toEqual([{ from: 0, to: 32 }]);
  });
});

describe('age and restrictions', () => {
  test('the young are kept from dirty steps whatever the step bars, and from no clean one', () => {
    expect(stepOf(careStep('rinse', { barredRestrictions: ['no-wet-work'] })).barredRestrictions).toEqual(['no-wet-work', 'under-age']);
    expect(stepOf(careStep('check', { zone: 'clean' })).barredRestrictions).toEqual([]);
  });
});

describe('weight', () => {
  const heavy = { sizeClass: 'queen-quilt', dryMassG: 2_800, wetState: 'wet' as const };

  test('as many people are planned as a lift takes, for a lot those of one piece, and never fewer than the rule book asks for', () => {
    expect(stepOf(careStep('rinse'), heavy).crew).toBe(2);
    expect(stepOf(careStep('rinse'), { ...heavy, count: 3, dryMassG: 8_400 }).crew).toBe(2);
    expect(stepOf(careStep('rinse', { crew: 3 }), heavy).crew).toBe(3);
    expect(stepOf(careStep('rinse'), { sizeClass: 'garment', dryMassG: 500, wetState: 'wet' }).crew).toBe(1);
  });

  test('a look lifts nothing, and what is too heavy for any number of people goes on a board with the crew of the rule book', () => {
    expect(stepOf(careStep('assess'), heavy).crew).toBe(1);
    expect(stepOf(careStep('rinse', { crew: 2 }), { sizeClass: 'garment', dryMassG: 90_000, wetState: 'dripping' }).crew).toBe(2);
  });

  test('dry it may be for one', () => {
    expect(stepOf(careStep('wrap'), { ...heavy, wetState: 'dry' }).crew).toBe(1);
    expect(stepOf(careStep('wrap'), { ...heavy, wetState: 'dripping' }).crew).toBe(2);
  });
});

// Work and rest in heat: from memory, after NIOSH 2016-106 (libs/climate/src/heat-stress.ts). At 29 C and 80 % moderate work is 15 minutes an hour.
describe('heat', () => {
  const at = (outdoorAirTempC: number | null, outdoorRelativeHumidityPct: number | null = 80) => ({ outdoorAirTempC, outdoorRelativeHumidityPct });
  const rinse = careStep('rinse', { minutesPerPiece: 15 });

  test('the rests that the heat asks for lengthen the step', () => {
    expect(stepOf(rinse, {}, at(15))).toMatchObject({ durationSlots: 1, coolFromSlot: 0 });
    expect(stepOf(rinse, {}, at(29))).toMatchObject({ durationSlots: 4, coolFromSlot: 0 });
  });

  test('warm clothing counts', () => {
    const slots = (ppe: string[]) => stepOf({ ...rinse, ppe }, {}, at(26)).durationSlots;
    expect(slots(SUIT)).toBeGreaterThan(slots([]));
  });

  test('a heat that stops work keeps it back for the hours that such a heat is taken to hold', () => {
    expect(stepOf(rinse, {}, at(36))).toMatchObject({ durationSlots: 1, coolFromSlot: 24 });
    expect(stepOf(rinse, {}, at(36), { people: calibratePeople({ heatHoldsHours: 3 }) }).coolFromSlot).toBe(12);
  });

  test('weather that nobody measured, or that no formula answers for, asks for nothing', () => {
    for (const air of [at(null), at(36, null), at(95, 80)]) expect(stepOf(rinse, {}, air)).toMatchObject({ durationSlots: 1, coolFromSlot: 0 });
  });
});

describe('the climate numbers that a network has set', () => {
  const built = (climate?: ProblemOptions['climate']) => buildProblem(input(), { nowMs: SEVEN, ...(climate ? { climate } : {}) }).problem;
  const drying = (climate?: ProblemOptions['climate']) => built(climate).items[0]!.options[0]!.steps.find(({ step }) => step === 'dry')!;
  const water = (climate?: ProblemOptions['climate']) => built(climate).rooms[0]!.removalGPerSlot[0]!.limit;

  test('decide how long things hang and how much water a room is given', () => {
    expect(drying(calibrate({ openRackFactor: 1.3 })).durationSlots).toBeLessThan(drying().durationSlots);
    expect(drying(calibrate({ blottedX: 1.2 })).durationSlots).toBeGreaterThan(drying().durationSlots);
    expect(water(calibrate({ promiseFactorMax: 0.3 }))).toBeLessThan(water());
    expect(built(calibrate())).toEqual(built());
  });
});

describe('the plan', () => {
  const rows = (people: PlanInput['people'], ppe: string[]) => input({ people, items: [item({ options: [{ disposition: 'treat', needs: 0, steps: [careStep('rinse', { skill: 'mould-work', ppe }), careStep('dry', { stabilises: true })] }] })] });
  const ann = { ...input().people[0]!, skills: ['mould-work' as const] };
  const planOf = (problemRows: PlanInput) => buildPlan(buildProblem(problemRows, { nowMs: SEVEN }).problem, { seed: 1, iterations: 0 });

  test('names nobody who would be refused, and says that a fit is missing', () => {
    expect(planOf(rows([ann], MASK)).unplanned).toMatchObject([{ blockedBy: { kind: 'respirator-fit', what: 'mould-work' } }]);
    const fitted = { ...ann, id: 'zoe', respiratorFitUntil: '2026-05-09' };
    expect(planOf(rows([ann, fitted], MASK)).assignments[0]).toMatchObject({ personIds: ['zoe'] });
    expect(planOf(rows([ann], [])).assignments[0]).toMatchObject({ personIds: ['ann'] });
  });

  test('says that the young and the restricted are there, but not for this', () => {
    expect(planOf(rows([{ ...ann, restrictions: ['under-age'] }], [])).unplanned).toMatchObject([{ blockedBy: { kind: 'restriction', what: 'mould-work' } }]);
  });

  test('takes a way that heat leaves open where it closes the preferred one', () => {
    const hot = input({
      outdoorAirTempC: 30, outdoorRelativeHumidityPct: 80, people: [ann], stations: [{ ...input().stations[0]!, steps: ['assess', 'rinse', 'refer', 'photograph'] }],
      items: [item({ startByMs: SEVEN + 3 * HOUR, deadlinesMs: [SEVEN + 3 * HOUR], options: [{ disposition: 'treat', needs: 0, steps: [careStep('rinse', { ppe: SUIT }), careStep('dry', { stabilises: true })] }, { disposition: 'hold-wet', needs: 0, steps: [careStep('photograph', { stabilises: true })] }] })],
    });
    expect(planOf(hot).assignments.map(({ step }) => step)).toEqual(['photograph']);
    const washed = { ...hot.items[0]!, options: [{ disposition: 'treat' as const, needs: 0, steps: [careStep('rinse', { ppe: SUIT, stabilises: true })] }] };
    expect(planOf({ ...hot, items: [washed] }).unplanned).toMatchObject([{ blockedBy: { kind: 'heat', what: 'rinse' } }]);
  });
});
