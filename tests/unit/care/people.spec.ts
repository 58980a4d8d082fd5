import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  barredFrom, breathingProtectionOf, clothingOf, DEFAULT_PEOPLE_CALIBRATION, effortOf, hoursSinceRest, LANGUAGES, mayDo, render, RESTRICTIONS, RULE_BOOK, shiftsWithinHours, SKILLS, STEP_KINDS, ZONES,
  type HeatLimit, type LiftLimit, type Source, type StepAtHand, type Suitability, type WorkConditions, type Worker,
} from '#care';

const HOUR = 3_600_000;
const NOON = Date.parse('2026-05-09T12:00:00Z');
const SOURCE: Source = { mark: 'own-calibration', cite: 'Our own calibration: a test.' };
const shift = (fromHour: number, toHour: number) => ({ startsAtMs: NOON + (fromHour - 12) * HOUR, endsAtMs: NOON + (toHour - 12) * HOUR });

const worker = (more: Partial<Worker> = {}): Worker => ({ skills: ['rinsing', 'mould-work'], restrictions: [], respiratorFitUntil: '2027-04-30', shifts: [shift(7, 19)], ...more });
const step = (more: Partial<StepAtHand> = {}): StepAtHand => ({ step: 'rinse', zone: 'dirty', skill: 'rinsing', barredRestrictions: ['no-wet-work', 'under-age'], ppe: ['waterproof rubber gloves'], heat: null, lift: null, ...more });
const at = (more: Partial<WorkConditions> = {}): WorkConditions => ({ atMs: NOON, onDay: '2026-05-09', peopleTogether: 1, liftingAid: false, workedMinutesInHour: null, others: [], ...more });
const codes = (suitability: Suitability) => (suitability.allowed ? [] : suitability.reasons.map(({ code }) => code));
const texts = (suitability: Suitability) => (suitability.allowed ? '' : suitability.reasons.map(({ text }) => render(text, 'en')).join(' '));

test('somebody with the skill, rested and fit, may do the step', () => {
  expect(mayDo(worker(), step(), at())).toEqual({ allowed: true });
});

// Under age and mould: Mold (fact sheet), FEMA, 2023; CCI Notes 13/15. Restrictions at their word: our own.
describe('skill, age and restrictions', () => {
  test('a step is for people with its skill; one without a skill is for everybody', () => {
    expect(codes(mayDo(worker({ skills: ['paper'] }), step(), at()))).toEqual(['skill_missing']);
    expect(codes(mayDo(worker({ skills: [] }), step({ skill: null }), at()))).toEqual([]);
  });

  test('nobody under age works on the dirty side or in quarantine, whatever the step lists', () => {
    const young = worker({ restrictions: ['under-age'] });
    for (const zone of ['dirty', 'quarantine'] as const) expect(codes(mayDo(young, step({ zone, barredRestrictions: [] }), at()))).toEqual(['under_age']);
    expect(codes(mayDo(young, step({ zone: 'clean', barredRestrictions: [] }), at()))).toEqual([]);
    expect(codes(mayDo(young, step({ zone: 'cold', barredRestrictions: ['under-age'] }), at()))).toEqual(['under_age']);
  });

  test('a declared restriction counts where the step bars it, and the reason asks for no diagnosis', () => {
    const declared = mayDo(worker({ restrictions: ['no-wet-work'] }), step(), at());
    expect(codes(declared)).toEqual(['restriction_declared']);
    expect(texts(declared)).toMatch(/declared not to do wet work.*Nobody asks why/);
    expect(codes(mayDo(worker({ restrictions: ['no-mould'] }), step(), at()))).toEqual([]);
  });
});

// 29 CFR 1910.134(c)(2), US OSHA: voluntary use of a filtering mask needs information only, required use fit test and medical evaluation.
// That a mask of the rule book is a required one is our own reading, which a network may change.
describe('respirators', () => {
  const mouldy = step({ step: 'surface-clean', skill: 'mould-work', zone: 'quarantine', ppe: ['N95 respirator', 'gloves', 'eye protection'] });

  test('a mask that the step asks for needs a fit that is valid on the day, the last day included', () => {
    const codesFor = (respiratorFitUntil: string | null) => codes(mayDo(worker({ respiratorFitUntil }), mouldy, at()));
    expect(codesFor('2026-05-09')).toEqual([]);
    expect(codesFor('2026-05-08')).toEqual(['respirator_fit_over']);
    expect(codesFor(null)).toEqual(['respirator_fit_missing']);
  });

  test('a mask worn as a precaution needs none', () => {
    expect(codes(mayDo(worker({ respiratorFitUntil: null }), step({ ppe: ['N95 respirator until mould is ruled out'] }), at()))).toEqual([]);
  });

  test('a network may let an N95 go without a fit test, but never a respirator against vapour, and it is told that an N95 is not a gas mask', () => {
    const lax = { ...DEFAULT_PEOPLE_CALIBRATION, fitForRequiredMask: false };
    expect(codes(mayDo(worker({ respiratorFitUntil: null }), mouldy, at(), lax))).toEqual([]);
    const vapour = mayDo(worker({ respiratorFitUntil: null }), step({ ppe: ['respirator with organic-vapour cartridge (fit-tested wearer)'] }), at(), lax);
    expect(codes(vapour)).toEqual(['respirator_fit_missing']);
    expect(texts(vapour)).toContain('an N95 is not a gas mask');
  });

  test('every piece of the rule book that protects the breath is understood', () => {
    const pieces = new Set(RULE_BOOK.flatMap((rule) => rule.concludes.flatMap((conclusion) => (conclusion.kind === 'ppe' ? [...conclusion.items] : []))));
    const breathing = [...pieces].filter((piece) => /respir|mask|N95|P100/i.test(piece));
    expect(breathing.length).toBeGreaterThanOrEqual(3);
    const kindOf = (piece: string) => breathingProtectionOf([piece]);
    for (const piece of breathing) expect([piece, kindOf(piece)]).toEqual([piece, /vapour/.test(piece) ? 'vapour' : /cartridge|P100/.test(piece) ? 'tight' : /until/.test(piece) ? 'offered' : 'dust']);
    for (const piece of pieces) if (!breathing.includes(piece)) expect([piece, kindOf(piece)]).toEqual([piece, 'none']);
  });

  test('of several pieces the strictest counts', () => {
    expect(breathingProtectionOf(['gloves', 'N95 respirator until mould is ruled out', 'N95 respirator'])).toBe('dust');
    expect(breathingProtectionOf(['N95 respirator', 'full-face respirator P100'])).toBe('tight');
    expect(breathingProtectionOf(['respirator with P100 filter (fit-tested wearer)', 'respirator with organic-vapour cartridge (fit-tested wearer)'])).toBe('vapour');
    expect(breathingProtectionOf(['respirator with organic-vapour cartridge (fit-tested wearer)'])).toBe('vapour');
    expect(breathingProtectionOf(['gloves'])).toBe('none');
  });
});

// Our own: 13 hours (what 11 hours of daily rest leave, Directive 2003/88/EC Article 3, from memory) and 8 hours as a break.
describe('hours', () => {
  const hours = (shifts: Worker['shifts'], atHour: number) => hoursSinceRest(shifts, NOON + (atHour - 12) * HOUR, 8);

  test.each<[string, Worker['shifts'], number, number | null]>([
    ['in the middle of a shift', [shift(7, 19)], 12, 5],
    ['after a pause at noon', [shift(7, 12), shift(13, 20)], 15, 7],
    ['overlapping shifts once', [shift(7, 15), shift(9, 20), shift(10, 11)], 19, 12],
    ['over the end of the shift', [shift(7, 14)], 15, 8],
    ['anew after a night', [shift(7, 20), shift(31, 40)], 32, 1],
    ['on after too short a night', [shift(7, 20), shift(26, 40)], 27, 14],
    ['nothing long after the last shift', [shift(7, 14)], 23, 0],
    ['nothing of a shift that nobody came to', [shift(7, 7), shift(9, 12)], 10, 1],
    ['nothing of shifts to come', [shift(13, 20)], 12, null],
    ['nothing of an empty roster', [], 12, null],
  ])('counts %s', (_what, shifts, atHour, expected) => {
    expect(hours(shifts, atHour)).toBe(expected);
    expect(hours([...shifts].reverse(), atHour)).toBe(expected);
  });

  test('nobody works more hours than the network has set, and the refusal shows both numbers', () => {
    const long = worker({ shifts: [shift(-2, 13)] });
    const refused = mayDo(long, step(), at());
    expect(codes(refused)).toEqual(['hours_too_long']);
    expect(texts(refused)).toMatch(/14\.0 hours since the last break of 8 hours\. Nobody works more than 13/);
    expect(codes(mayDo(long, step(), at(), { ...DEFAULT_PEOPLE_CALIBRATION, consecutiveHoursMax: 14 }))).toEqual([]);
    expect(codes(mayDo(worker({ shifts: [shift(-1, 13)] }), step(), at()))).toEqual([]);
  });

  test('somebody whose roster is empty is not sent home for it', () => {
    expect(codes(mayDo(worker({ shifts: [] }), step(), at()))).toEqual([]);
  });
});

describe('heat', () => {
  const heat = (workMinutesPerHour: number): HeatLimit => ({ wbgtC: 31.2, workMinutesPerHour, source: SOURCE });

  test('where no minute of work is left nobody goes on, and the batch is no reason to', () => {
    const stopped = mayDo(worker(), step({ heat: heat(0) }), at({ workedMinutesInHour: 0 }));
    expect(codes(stopped)).toEqual(['heat_stop']);
    expect(texts(stopped)).toMatch(/31\.2 °C.*Stopping beats finishing the batch/);
  });

  test('whoever has worked the minutes of the hour rests first', () => {
    const worked = (workedMinutesInHour: number | null) => codes(mayDo(worker(), step({ heat: heat(30) }), at({ workedMinutesInHour })));
    expect(worked(30)).toEqual([]);
    expect(worked(31)).toEqual(['heat_rest_due']);
    expect(worked(null)).toEqual([]);
    expect(codes(mayDo(worker(), step({ heat: heat(60) }), at({ workedMinutesInHour: 61 })))).toEqual([]);
  });

  test('clothing and effort: what the heat is reckoned with', () => {
    expect(clothingOf(['nitrile or other waterproof gloves', 'rubber boots'])).toBe('work-clothes');
    expect(clothingOf(['gloves', 'apron or gown'])).toBe('film-coverall');
    expect(clothingOf(['disposable coverall', 'vapour-barrier suit'])).toBe('vapour-barrier');
    expect([effortOf('assess', true), effortOf('rinse', false), effortOf('rinse', true)]).toEqual(['light', 'moderate', 'heavy']);
  });
});

describe('weight', () => {
  const lift = (peopleNeeded: number | null): LiftLimit => ({ loadKg: 9.8, peopleNeeded, source: SOURCE });
  const lifted = (peopleNeeded: number | null, more: Partial<WorkConditions> = {}) => mayDo(worker(), step({ lift: lift(peopleNeeded) }), at(more));

  test('a load for two is not for one, and is for two', () => {
    expect(codes(lifted(2))).toEqual(['too_heavy']);
    expect(texts(lifted(2))).toMatch(/9\.8 kg.*2 people together, and 1 is named/);
    expect(codes(lifted(2, { peopleTogether: 2 }))).toEqual([]);
  });

  test('what is too heavy for any number of people takes an aid', () => {
    expect(codes(lifted(null, { peopleTogether: 6 }))).toEqual(['lifting_aid_needed']);
    expect(codes(lifted(null, { liftingAid: true }))).toEqual([]);
  });
});

describe('what they can do instead', () => {
  test('the other steps that they may do, each once and in the order given, and not the one that was refused', () => {
    const others = [step(), step({ step: 'blot', skill: 'blotting' }), step({ step: 'pack', skill: null, zone: 'clean' }), step({ step: 'wrap', skill: null }), step({ step: 'pack', skill: null })];
    const refused = mayDo(worker({ skills: [] }), step(), at({ others }));
    expect(refused).toMatchObject({ allowed: false, instead: ['pack', 'wrap'] });
  });

  test('in the heat nothing is offered that is as hot', () => {
    const hot = { heat: { wbgtC: 33, workMinutesPerHour: 0, source: SOURCE } };
    const others = [step({ step: 'pack', skill: null, ...hot }), step({ step: 'assess', skill: null, heat: null })];
    expect(mayDo(worker(), step(hot), at({ others }))).toMatchObject({ allowed: false, instead: ['assess'] });
  });
});

const sourceOf = fc.constant(SOURCE);
const stepArb: fc.Arbitrary<StepAtHand> = fc.record({
  step: fc.constantFrom(...STEP_KINDS), zone: fc.constantFrom(...ZONES), skill: fc.option(fc.constantFrom(...SKILLS)), barredRestrictions: fc.subarray([...RESTRICTIONS]),
  ppe: fc.subarray(['gloves', 'N95 respirator', 'N95 respirator until mould is ruled out', 'respirator with organic-vapour cartridge (fit-tested wearer)', 'apron or gown']),
  heat: fc.option(fc.record({ wbgtC: fc.double({ min: 0, max: 45, noNaN: true }), workMinutesPerHour: fc.constantFrom(0, 15, 30, 45, 60), source: sourceOf })),
  lift: fc.option(fc.record({ loadKg: fc.double({ min: 0, max: 60, noNaN: true }), peopleNeeded: fc.option(fc.integer({ min: 1, max: 3 })), source: sourceOf })),
});
const workerArb: fc.Arbitrary<Worker> = fc.record({
  skills: fc.subarray([...SKILLS]), restrictions: fc.subarray([...RESTRICTIONS]), respiratorFitUntil: fc.option(fc.constantFrom('2026-05-08', '2026-05-09', '2027-01-01')),
  shifts: fc.array(fc.tuple(fc.integer({ min: -40, max: 12 }), fc.integer({ min: 0, max: 16 })).map(([from, hours]) => shift(from, from + hours)), { maxLength: 4 }),
});
const conditionsArb: fc.Arbitrary<WorkConditions> = fc.record({
  atMs: fc.constant(NOON), onDay: fc.constant('2026-05-09'), peopleTogether: fc.integer({ min: 1, max: 4 }), liftingAid: fc.boolean(), workedMinutesInHour: fc.option(fc.integer({ min: 0, max: 60 })), others: fc.array(stepArb, { maxLength: 5 }),
});

describe('for any people, steps and circumstances', () => {
  test('a refusal has a reason, each in words and with a source, and offers only what they may do', () => {
    fc.assert(fc.property(workerArb, stepArb, conditionsArb, (person, one, conditions) => {
      const found = mayDo(person, one, conditions);
      if (found.allowed) return;
      expect(found.reasons.length).toBeGreaterThan(0);
      for (const reason of found.reasons) for (const language of LANGUAGES) expect([render(reason.text, language).length > 30, /[{}]/.test(render(reason.text, language)), reason.source.cite.length > 5]).toEqual([true, false, true]);
      for (const instead of found.instead) expect(conditions.others.some((other) => other.step === instead && mayDo(person, other, conditions).allowed)).toBe(true);
    }));
  });

  test('learning, being tested, or another pair of hands never closes a step', () => {
    fc.assert(fc.property(workerArb, stepArb, conditionsArb, (person, one, conditions) => {
      const more: Worker = { ...person, skills: [...SKILLS], respiratorFitUntil: '2028-01-01' };
      const helped = { ...conditions, peopleTogether: conditions.peopleTogether + 1 };
      if (mayDo(person, one, conditions).allowed) expect(mayDo(more, one, helped).allowed).toBe(true);
    }));
  });

  test('a further restriction, more heat, more weight or more minutes never open one', () => {
    fc.assert(fc.property(workerArb, stepArb, conditionsArb, (person, one, conditions) => {
      const worse: StepAtHand = { ...one, heat: one.heat && { ...one.heat, workMinutesPerHour: Math.max(0, one.heat.workMinutesPerHour - 15) }, lift: one.lift && { ...one.lift, peopleNeeded: one.lift.peopleNeeded === null || one.lift.peopleNeeded === 3 ? null : one.lift.peopleNeeded + 1 } };
      const longer = { ...conditions, workedMinutesInHour: conditions.workedMinutesInHour === null ? null : conditions.workedMinutesInHour + 10 };
      if (mayDo({ ...person, restrictions: [...RESTRICTIONS] }, worse, longer).allowed) expect(mayDo(person, one, conditions).allowed).toBe(true);
    }));
  });
});

describe('shifts within the hours that anybody works', () => {
  const anyShifts = fc.array(fc.tuple(fc.integer({ min: -40, max: 60 }), fc.integer({ min: -2, max: 20 })).map(([from, hours]) => shift(from, from + hours)), { maxLength: 6 });
  const calibration = fc.record({ consecutiveHoursMax: fc.integer({ min: 4, max: 16 }), restHours: fc.integer({ min: 6, max: 12 }) });
  const holds = (spans: readonly { startsAtMs: number; endsAtMs: number }[], atMs: number) => spans.some(({ startsAtMs, endsAtMs }) => startsAtMs <= atMs && atMs < endsAtMs);

  test('hold just the moments on shift that come before the most hours since a real break', () => {
    fc.assert(
      fc.property(anyShifts, calibration, fc.integer({ min: -80, max: 160 }), (shifts, { consecutiveHoursMax, restHours }, halfHour) => {
        const atMs = NOON + halfHour * (HOUR / 2);
        const within = shiftsWithinHours(shifts, { consecutiveHoursMax, restHours });
        const onShift = holds(shifts.filter(({ startsAtMs, endsAtMs }) => endsAtMs > startsAtMs), atMs);
        const hours = hoursSinceRest(shifts, atMs, restHours);
        expect(holds(within, atMs)).toBe(onShift && hours !== null && hours < consecutiveHoursMax);
      }),
      { numRuns: 2_000 },
    );
  });

  test('never overlap', () => {
    fc.assert(
      fc.property(anyShifts, calibration, (shifts, numbers) => {
        const within = shiftsWithinHours(shifts, numbers);
        for (const [i, span] of within.entries()) expect(span.startsAtMs).toBeGreaterThanOrEqual(within[i - 1]?.endsAtMs ?? -Infinity);
      }),
    );
  });
});

test('what bars people from a step is what the step says, and on the dirty side their age', () => {
  for (const zone of ZONES) {
    const barred = barredFrom(step({ zone, barredRestrictions: ['no-wet-work'] }));
    expect(barred).toEqual(zone === 'dirty' || zone === 'quarantine' ? ['no-wet-work', 'under-age'] : ['no-wet-work']);
  }
  expect(barredFrom(step({ zone: 'dirty', barredRestrictions: ['under-age'] }))).toEqual(['under-age']);
});
