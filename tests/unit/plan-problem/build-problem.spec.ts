import { describe, expect, test } from '@jest/globals';
import { buildProblem, dryingOutlook, type InputItem, type PlanInput } from '#application';
import { sustainedRemovalKgPerH } from '#climate';
import { FREEZE, HOUR, input, item, MACHINE, REFER, RELEASE, room, SEVEN, TREAT, careStep } from './support/small-input.js';

const build = (rows: PlanInput, nowMs = SEVEN) => buildProblem(rows, { nowMs });
const of = (change: Partial<InputItem>) => build(input({ items: [item(change)] }));
const planned = (change: Partial<InputItem>) => of(change).problem.items[0]!;
const kinds = (change: Partial<InputItem>) => planned(change).options.map(({ disposition, steps }) => [disposition, ...steps.map(({ step }) => step)]);

describe('time', () => {
  test('slots begin with the quarter hour before the present moment', () => {
    const { problem, windowSlots } = build(input(), SEVEN + 7 * 60_000);
    expect([problem.originMs, problem.slotMinutes, windowSlots]).toEqual([SEVEN, 15, 288]);
  });

  test('hours and shifts count by whole slots that lie inside them, and a station without stated hours is open', () => {
    const rows = input({ stations: [{ ...input().stations[0]!, openings: [{ fromMs: SEVEN + 10 * 60_000, toMs: SEVEN + 50 * 60_000 }] }, { ...input().stations[0]!, id: 'second' }] });
    const { stations, people, freezers } = build(rows).problem;
    expect(stations.map(({ open }) => open)).toEqual([[{ from: 1, to: 3 }], [{ from: 0, to: 288 }]]);
    expect(people[0]!.shifts).toEqual([{ from: 0, to: 48 }]);
    expect(freezers[0]).toMatchObject({ volumeCl: 30_000, open: [{ from: 8, to: 480 }] });
  });

  test('the deadline is the earliest that can still be met', () => {
    expect(planned({ startByMs: SEVEN + 5 * HOUR, deadlinesMs: [SEVEN + 5 * HOUR, SEVEN + 30 * HOUR] })).toMatchObject({ releaseSlot: 0, deadlineSlot: 20, weight: 12, stabilised: false });
    expect(planned({ startByMs: SEVEN - HOUR, deadlinesMs: [SEVEN - HOUR, SEVEN + 30 * HOUR] })).toMatchObject({ deadlineSlot: 120, stabilised: false });
  });

  test('what no deadline can save any more is still planned, after the others, and counted as late', () => {
    const built = of({ startByMs: SEVEN - HOUR, deadlinesMs: [SEVEN - HOUR] });
    expect(built.problem.items[0]).toMatchObject({ stabilised: true });
    expect([...built.late]).toEqual(['thing']);
  });
});

describe('routes', () => {
  test('steps that are done, appointments and what follows drying are left out', () => {
    expect(kinds({ doneSteps: ['assess'] })).toEqual([['treat', 'rinse', 'blot', 'dry'], ['hold-frozen', 'wrap', 'freeze']]);
  });

  test('what was done twice is done', () => {
    expect(kinds({ doneSteps: ['assess', 'rinse', 'assess', 'blot', 'rinse'] })[0]).toEqual(['treat', 'dry']);
  });

  test('a route that something is missing for is not planned', () => {
    expect(kinds({ options: [{ ...TREAT, needs: 1 }, FREEZE] })).toEqual([['hold-frozen', 'wrap', 'freeze']]);
  });

  test('a lead\'s choice stands alone', () => {
    expect(kinds({ override: 'hold-frozen' })).toEqual([['hold-frozen', 'wrap', 'freeze']]);
  });

  test('drying stabilises at its start, freezing at its end, and a referral when the thing is ready for it', () => {
    const marks = (change: Partial<InputItem>) => planned(change).options.map(({ steps }) => steps.map(({ stabilises }) => stabilises));
    expect(marks({})).toEqual([[null, null, null, 'start'], [null, 'end']]);
    expect(marks({ options: [REFER] })).toEqual([['end']]);
  });

  test('a referral is planned where triage prefers it, never as a cheap way out', () => {
    expect(kinds({ options: [REFER, TREAT] }).map(([disposition]) => disposition)).toEqual(['refer', 'treat']);
    expect(kinds({ options: [TREAT, REFER, RELEASE] }).map(([disposition]) => disposition)).toEqual(['treat']);
  });

  test('what the owner lets go has no clock', () => {
    expect(planned({ options: [RELEASE] })).toMatchObject({ stabilised: true, options: [{ disposition: 'release', steps: [{ step: 'photograph' }] }] });
  });

  test('what waits for its owner is looked at and nothing else, and is not counted as saved', () => {
    const built = of({ options: [{ ...TREAT, needs: 1 }] });
    expect(built.problem.items[0]!.options).toMatchObject([{ disposition: 'treat', steps: [{ step: 'assess' }] }]);
    expect([...built.lookOnly]).toEqual(['thing']);
    const seen = of({ options: [{ ...TREAT, needs: 1 }], doneSteps: ['assess'] });
    expect(seen.problem.items).toEqual([]);
    expect(seen.leftOut).toEqual([{ itemId: 'thing', weight: 12, blockedBy: { kind: 'owner', what: '' } }]);
  });

  test('what is ready for the courier and what nobody has assessed is left out with its reason, never in silence', () => {
    expect(of({ options: [REFER], doneSteps: ['pack'] }).leftOut).toMatchObject([{ blockedBy: { kind: 'appointment' } }]);
    expect(of({ options: [] }).leftOut).toMatchObject([{ blockedBy: { kind: 'assessment' } }]);
  });

  test('what was rinsed is not sent back to be brushed, unless for mould', () => {
    const options = [{ ...TREAT, steps: [careStep('rinse'), careStep('surface-clean'), careStep('dry', { stabilises: true })] }];
    expect(kinds({ options, doneSteps: ['rinse'] })).toEqual([['treat', 'dry']]);
    expect(kinds({ options, doneSteps: ['rinse'], mould: 'active' })).toEqual([['treat', 'surface-clean', 'dry']]);
  });
});

describe('what a step takes', () => {
  test('minutes of the whole lot in whole slots, with the hands that lay it out counted before the drying', () => {
    const [assess, rinse, blot, dry] = planned({ count: 4 }).options[0]!.steps;
    // 4 x 10 minutes; 4 x 20; 4 x (10 + 10 x 2 people) for one pair of hands.
    expect([assess!.durationSlots, rinse!.durationSlots, blot!.durationSlots]).toEqual([3, 6, 8]);
    expect([rinse!.crew, dry!.crew]).toEqual([2, 0]);
  });

  test('drying takes the area of the item, the hours of its size class in the present air, and its water over them', () => {
    const outlook = dryingOutlook({ sizeClass: 'garment', blotted: true }, { airTempC: 20, relativeHumidityPct: 60 })!;
    const dry = planned({}).options[0]!.steps.at(-1)!;
    expect(dry.durationSlots).toBe(Math.ceil(outlook.planHours * 4));
    // As much as the air takes while it is wet through, then less: how much is told in reckoned-drying.spec.ts.
    expect(dry.drying).toMatchObject({ areaDm2: 120, loadGPerSlot: Math.ceil((outlook.law.ratePerH / 4) * 500), falling: [{}] });
  });

  test('thick things hold their place for twice the hours of thin ones, which is our own calibration', () => {
    const air = { airTempC: 20, relativeHumidityPct: 60 };
    const quilt = dryingOutlook({ sizeClass: 'double-quilt', blotted: true }, air)!;
    expect(quilt.planHours).toBeCloseTo((quilt.earliestH! / 0.7) * 2, 6);
    expect(dryingOutlook({ sizeClass: 'book', blotted: true }, air)).toMatchObject({ planHours: 72, earliestH: null, latestH: null });
  });

  test('freezing takes the volume of the item', () => {
    expect(planned({}).options[1]!.steps.at(-1)!.freezer).toEqual({ volumeCl: 800 });
  });
});

describe('what has begun', () => {
  test('work at a station holds it for what is left of the step, and the rest follows', () => {
    const built = of({ stage: 'in-work', keeper: { kind: 'station', id: 'bath' }, nextStep: 'rinse', doneSteps: ['assess'], count: 4, keeperSinceMs: SEVEN - 30 * 60_000, keeperPersonId: 'ann' });
    expect(built.problem.fixed).toMatchObject([{ step: 'rinse', stationId: 'bath', personIds: ['ann'], interval: { from: 0, to: 4 } }]);
    expect(built.problem.items[0]).toMatchObject({ releaseSlot: 4, options: [{ disposition: 'treat', steps: [{ step: 'blot' }, { step: 'dry' }] }] });
  });

  test('a look leaves every way open', () => {
    const change: Partial<InputItem> = { stage: 'in-work', keeper: { kind: 'station', id: 'bath' }, nextStep: 'assess' };
    expect(kinds(change)).toEqual([['treat', 'rinse', 'blot', 'dry'], ['hold-frozen', 'wrap', 'freeze']]);
  });

  test('what hangs keeps its place for the hours that are left, and is checked afterwards', () => {
    const built = of({ stage: 'drying', keeper: { kind: 'drying-place', id: 'rack' }, nextStep: 'dry', stabilisedAtMs: SEVEN - 2 * HOUR, keeperSinceMs: SEVEN - 2 * HOUR, doneSteps: ['assess', 'rinse', 'blot'] });
    const hours = dryingOutlook({ sizeClass: 'garment', blotted: true }, { airTempC: 20, relativeHumidityPct: 60 })!.planHours;
    const left = Math.ceil(hours * 4) - 8;
    expect(built.problem.fixed).toMatchObject([{ step: 'dry', dryingPlaceId: 'rack', areaDm2: 120, interval: { from: 0, to: left } }]);
    expect(built.problem.items[0]).toMatchObject({ releaseSlot: left, stabilised: true, options: [{ disposition: 'treat', steps: [{ step: 'check', stabilises: null }] }] });
  });

  test('in a room too damp to dry it, what hangs stays', () => {
    const wet = item({ stage: 'drying', keeper: { kind: 'drying-place', id: 'rack' }, stabilisedAtMs: SEVEN - HOUR });
    const { problem } = build(input({ items: [wet], rooms: [room({ relativeHumidityPct: 84 })] }));
    expect(problem.fixed).toMatchObject([{ loadGPerSlot: 0, interval: { from: 0, to: 480 } }]);
  });

  test('what is frozen takes its volume and lies, until a lead chooses another way for it', () => {
    const frozen: Partial<InputItem> = { stage: 'held-frozen', keeper: { kind: 'freezer', id: 'chest' }, stabilisedAtMs: SEVEN - HOUR, disposition: 'hold-frozen', nextStep: null };
    expect(of(frozen).problem.fixed).toMatchObject([{ freezerId: 'chest', volumeCl: 800, interval: { from: 0, to: 480 } }]);
    expect([of(frozen).problem.items, of(frozen).leftOut]).toEqual([[], []]);
    expect(kinds({ ...frozen, disposition: 'treat', nextStep: 'thaw', override: 'treat' })).toEqual([['treat', 'thaw', 'assess', 'rinse', 'blot', 'dry']]);
  });
});

describe('room air', () => {
  const removal = (change: Parameters<typeof room>[0]) => build(input({ rooms: [room(change)] })).problem.rooms[0]!.removalGPerSlot[0]!.limit;

  test('is what the climate library says that room and machines can shed at the cap, by the slot', () => {
    const kgPerH = sustainedRemovalKgPerH({
      volumeM3: 600, airTempC: 20, airChangesPerH: 0.5, outdoorTempC: 24, outdoorRelativeHumidityPct: 90, capPct: 75,
      dehumidifiers: [{ kind: 'refrigerant', ratedLitresPerDay: 70, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 }],
    });
    expect(removal({})).toBe(Math.floor(Math.floor(kgPerH * 1000) / 4));
    expect(removal({})).toBeGreaterThan(100);
  });

  test('without a running machine is nothing where the outdoor air is wetter than the room may be', () => {
    expect(removal({ running: [] })).toBe(0);
    expect(removal({ running: [MACHINE, MACHINE] })).toBeGreaterThan(removal({}));
  });

  test('is nothing above the cap, in air that dries nothing, and outside what the climate library answers for', () => {
    expect(removal({ relativeHumidityPct: 62, humidityCapPct: 60 })).toBe(0);
    expect(removal({ relativeHumidityPct: 74.9 })).toBe(0);
    expect(removal({ airTempC: 0.5 })).toBe(0);
    expect(removal({ volumeM3: 0.5 })).toBe(0);
  });

  test('a label that makes no sense does not cost the room its other machines', () => {
    expect(removal({ running: [MACHINE, { ratedLPerDay: 20, ratedTempC: 5, ratedRelativeHumidityPct: 60 }] })).toBe(removal({}));
  });
});
