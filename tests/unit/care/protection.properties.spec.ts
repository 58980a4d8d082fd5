import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import type { Assessment, Hazard, TriageContext } from '#care';
import { breathingProtectionOf, BREATHING_PROTECTION, FRAGILITIES, HAZARDS, MATERIAL_CLASSES, MATERIALS, MOULD_STATES, SOILS, triageOutcome, WATER_KINDS, WET_STATES } from '#care';
import { anyAssessment, anyContext } from './assessment.support.js';

const RUNS = { numRuns: 300 };

interface Protection {
  breath: number;
  hands: number;
  eyes: number;
  feet: number;
}

const rank = (ppe: readonly string[], ...levels: RegExp[]): number => levels.findLastIndex((level) => ppe.some((item) => level.test(item))) + 1;

/** How well a list of equipment protects each part of a body; more is better. */
function protectionOf(ppe: readonly string[]): Protection {
  return {
    breath: BREATHING_PROTECTION.indexOf(breathingProtectionOf(ppe)),
    hands: rank(ppe, /gloves/, /waterproof/),
    eyes: rank(ppe, /eye protection|goggles/),
    feet: rank(ppe, /boots/),
  };
}

function neverLighter(better: Assessment, worse: Assessment, context: TriageContext): void {
  const [before, after] = [protectionOf(triageOutcome(better, context).ppe), protectionOf(triageOutcome(worse, context).ppe)];
  for (const part of ['breath', 'hands', 'eyes', 'feet'] as const) expect([part, after[part]]).toEqual([part, Math.max(after[part], before[part])]);
}

/** Ladders from the better to the worse answer; hazards are one more each. */
const LADDERS: { observation: string; steps: Partial<Assessment>[] }[] = [
  { observation: 'water', steps: [{ water: 'clean' }, { water: 'grey' }, { water: 'black' }] },
  { observation: 'mould', steps: [{ mould: 'none' }, { mould: 'dry' }, { mould: 'suspected' }, { mould: 'active' }] },
  { observation: 'wet state', steps: [{ wetState: 'damp' }, { wetState: 'wet' }, { wetState: 'dripping' }] },
  { observation: 'soil', steps: [{ soil: 'none' }, { soil: 'light' }, { soil: 'heavy-mud' }] },
  { observation: 'fragility', steps: [{ fragility: 'sound' }, { fragility: 'weak' }] },
  { observation: 'hazards', steps: [{ hazards: ['lead'] }, { hazards: ['lead', 'sewage'] }, { hazards: ['lead', 'sewage', 'fuel-or-solvent'] }] },
];

describe('protection', () => {
  test.each(LADDERS)('is never lightened by a worse answer about $observation', ({ steps }) => {
    fc.assert(
      fc.property(anyAssessment, anyContext, fc.integer({ min: 1, max: steps.length - 1 }), (assessment, context, index) => {
        neverLighter({ ...assessment, ...steps[index - 1] }, { ...assessment, ...steps[index] }, context);
      }),
      RUNS,
    );
  });

  test('is never lightened by adding a material', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, fc.constantFrom(...MATERIAL_CLASSES), (assessment, context, part) => {
        const [before, after] = [triageOutcome(assessment, context), triageOutcome({ ...assessment, parts: [...(assessment.parts ?? []), part] }, context)];
        // Ways that fall away take their equipment with them; what stays open is worn for all parts.
        for (const { disposition, steps } of after.options) {
          const alone = before.options.find((option) => option.disposition === disposition)?.steps ?? [];
          for (const step of steps) for (const item of alone.find(({ step: kind, zone }) => kind === step.step && zone === step.zone)?.ppe ?? []) expect(step.ppe).toContain(item);
        }
      }),
      RUNS,
    );
  });

  const WORN: Record<Hazard, RegExp[]> = {
    sewage: [/waterproof rubber gloves/, /goggles/, /rubber boots/],
    'fuel-or-solvent': [/organic-vapour/],
    pesticide: [/waterproof gloves/, /eye protection/], 'arsenic-era-object': [/waterproof gloves/, /eye protection/], mercury: [/waterproof gloves/], lead: [/waterproof gloves/], radium: [/waterproof gloves/],
    medicine: [/waterproof gloves/], 'unknown-liquid': [/waterproof gloves/, /eye protection/],
    asbestos: [/P100/, /coverall/],
    sharps: [/cut-resistant/],
    // Nobody handles these further: the referral says so, and nothing worn makes it safe.
    ammunition: [], 'lithium-cell': [], 'nitrate-film': [],
  };
  const REFERRED: readonly Hazard[] = HAZARDS.filter((hazard) => hazard !== 'sharps');

  test.each(HAZARDS)('of every step of every open way covers %s', (hazard) => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const outcome = triageOutcome({ ...assessment, hazards: [...assessment.hazards.filter((other) => other !== hazard), hazard] }, context);
        for (const { steps } of outcome.options) for (const step of steps) for (const item of WORN[hazard]) expect(step.ppe).toContainEqual(expect.stringMatching(item));
        if (REFERRED.includes(hazard)) expect(outcome.referral.length).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });

  test('against black water and mould is worn at every step on the dirty side', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const outcome = triageOutcome({ ...assessment, water: 'black', mould: 'active' }, context);
        for (const step of outcome.options.flatMap(({ steps }) => steps).filter(({ zone }) => zone === 'quarantine' || zone === 'dirty')) {
          expect(step.ppe).toEqual(expect.arrayContaining(['rubber boots', 'waterproof rubber gloves', 'goggles', 'N95 respirator']));
        }
      }),
      RUNS,
    );
  });
});

describe('what nobody knows', () => {
  const UNKNOWNS: { observation: string; unknown: Partial<Assessment>; answers: Partial<Assessment>[] }[] = [
    { observation: 'water', unknown: { water: 'unknown' }, answers: WATER_KINDS.map((water) => ({ water })) },
    { observation: 'mould', unknown: { mould: 'unknown' }, answers: MOULD_STATES.map((mould) => ({ mould })) },
    { observation: 'soil', unknown: { soil: undefined }, answers: SOILS.map((soil) => ({ soil })) },
    { observation: 'fragility', unknown: { fragility: 'unknown' }, answers: FRAGILITIES.map((fragility) => ({ fragility })) },
    { observation: 'wet state', unknown: { wetState: 'unknown' }, answers: WET_STATES.map((wetState) => ({ wetState })) },
    { observation: 'loose parts', unknown: { detachedParts: null }, answers: [{ detachedParts: true }, { detachedParts: false }] },
    { observation: 'old repairs', unknown: { oldRepairs: undefined }, answers: [{ oldRepairs: true }, { oldRepairs: false }] },
  ];
  test.each(UNKNOWNS)('of $observation is never laxer than the best answer: no later start, no lighter protection, no prohibition less', ({ unknown, answers }) => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const open = triageOutcome({ ...assessment, ...unknown }, context);
        const known = answers.map((answer) => triageOutcome({ ...assessment, ...answer }, context));
        expect(open.startByMs).toBeLessThanOrEqual(Math.max(...known.map(({ startByMs }) => startByMs)));
        for (const part of ['breath', 'hands', 'eyes', 'feet'] as const) expect(protectionOf(open.ppe)[part]).toBeGreaterThanOrEqual(Math.min(...known.map(({ ppe }) => protectionOf(ppe)[part])));
        expect(open.never.length).toBeGreaterThanOrEqual(Math.min(...known.map(({ never }) => never.length)));
      }),
      RUNS,
    );
  });

  test('of an assessment from before these observations were asked counts as unknown, not as none', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const { soil: _soil, detachedParts: _detached, oldRepairs: _repairs, parts: _parts, colours: _colours, ...old } = assessment;
        expect(triageOutcome(old, context)).toEqual(triageOutcome({ ...old, soil: 'unknown', detachedParts: null, oldRepairs: null, parts: [] }, context));
      }),
      RUNS,
    );
  });
});

describe('the order in which things are named', () => {
  test('of colours and of parts decides nothing', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, fc.uniqueArray(fc.constantFrom(...MATERIAL_CLASSES), { minLength: 2, maxLength: 4 }), (assessment, context, parts) => {
        const forward = { ...assessment, parts };
        const backward = { ...assessment, parts: parts.toReversed(), colourTests: assessment.colourTests.toReversed(), colours: assessment.colours?.toReversed(), hazards: assessment.hazards.toReversed() };
        expect(triageOutcome(backward, context)).toEqual(triageOutcome(forward, context));
      }),
      RUNS,
    );
  });

  test('of a part named twice, or named as the thing itself, decides nothing', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const { parts = [] } = assessment;
        expect(triageOutcome({ ...assessment, parts: [...parts, ...parts, assessment.materialClass] }, context)).toEqual(triageOutcome({ ...assessment, parts }, context));
      }),
      RUNS,
    );
  });
});

describe('a mixed object', () => {
  test('starts when its first part must, is forbidden what any part is, and takes no way that one part has not', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, fc.uniqueArray(fc.constantFrom(...MATERIAL_CLASSES), { minLength: 1, maxLength: 3 }), (assessment, context, parts) => {
        const whole = triageOutcome({ ...assessment, parts }, context);
        const alone = [...new Set([assessment.materialClass, ...parts])].map((materialClass) => triageOutcome({ ...assessment, materialClass, parts: [] }, context));
        expect(whole.startByMs).toBe(Math.min(...alone.map(({ startByMs }) => startByMs)));
        const forbidden = new Set(whole.never.map(({ text }) => text));
        for (const { never } of alone) for (const { text } of never) expect(forbidden).toContain(text);
        for (const { disposition, steps } of whole.options) {
          if (disposition === 'refer') continue;
          const ways = alone.map(({ options }) => options.find((option) => option.disposition === disposition));
          expect([disposition, ways.every((way) => way !== undefined)]).toEqual([disposition, true]);
          if (steps.some(({ step }) => step === 'rinse')) expect(ways.every((way) => way?.steps.some(({ step }) => step === 'rinse'))).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe('freezing', () => {
  test('that is allowed removes no way that was open without it, and changes none of their steps', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, fc.constantFrom(false, null), (assessment, context, before) => {
        const openWays = (freeze: boolean | null) => triageOutcome({ ...assessment, consents: { ...assessment.consents, freeze } }, context).options.filter(({ needs }) => needs.length === 0);
        const withFreezer = new Map(openWays(true).map((option) => [option.disposition, option.steps]));
        for (const { disposition, steps } of openWays(before)) expect(withFreezer.get(disposition)).toEqual(steps);
      }),
      RUNS,
    );
  });

  test('settings are told exactly where freezing is open', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const { freezer, options } = triageOutcome(assessment, context);
        expect(freezer !== null).toBe(options.some(({ disposition }) => disposition === 'hold-frozen'));
        if (freezer !== null) expect(freezer.freezeToC).toBeLessThanOrEqual(freezer.holdAtMostC);
        if (freezer?.notColderThanC !== null && freezer !== null) expect(freezer.freezeToC).toBeGreaterThanOrEqual(freezer.notColderThanC);
      }),
      RUNS,
    );
  });

  const NEVER_FROZEN = MATERIAL_CLASSES.filter((materialClass) => ['painting', 'inorganic'].includes(MATERIALS[materialClass].family) || /^(tape|floppy|bone|horn|photo-(collodion-or|daguerre|glass|lantern|inkjet|unknown)|furniture-(solid|veneer)|musical|film-roll)/.test(materialClass));
  test.each(NEVER_FROZEN)('is never open for %s, nor for anything with such a part', (materialClass) => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        for (const changed of [{ ...assessment, materialClass }, { ...assessment, parts: [materialClass] }]) expect(triageOutcome(changed, context).options.map(({ disposition }) => disposition)).not.toContain('hold-frozen');
      }),
      { numRuns: 40 },
    );
  });
});
