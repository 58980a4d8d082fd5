import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import type { Assessment, TriageContext, Urgency } from '#care';
import { buildBook, DEFAULT_CALIBRATION, DISPOSITIONS, FIBRES, FRAGILITIES, MATERIAL_CLASSES, MOULD_STATES, RELEASES, triage as triageBy, triageOutcome as outcomeBy, URGENCIES, WATER_KINDS, WET_STATES } from '#care';
import { anyAssessment, anyContext } from './assessment.support.js';

const level = (urgency: Urgency): number => URGENCIES.indexOf(urgency);
const RUNS = { numRuns: 400 };

/** Every rule id a result names, wherever it stands. */
function namedRules(result: ReturnType<typeof triageBy>): string[] {
  const steps = result.options.flatMap((option) => option.steps);
  const statements = [...result.never, ...result.cautions, ...result.consentNeeded, ...result.referral, ...result.reasons, ...result.clocks, ...steps.flatMap((step) => step.cautions)];
  return [...statements.map(({ ruleId }) => ruleId), ...result.options.flatMap((option) => option.ruleIds)];
}

/** Ladders from the better to the worse answer. */
const LADDERS: { observation: string; steps: Partial<Assessment>[] }[] = [
  { observation: 'mould', steps: [{ mould: 'none' }, { mould: 'dry' }, { mould: 'suspected' }, { mould: 'active' }] },
  { observation: 'wet state', steps: [{ wetState: 'dry' }, { wetState: 'damp' }, { wetState: 'wet' }, { wetState: 'dripping' }] },
  { observation: 'water', steps: [{ water: 'clean' }, { water: 'grey' }, { water: 'black' }] },
  { observation: 'fragility', steps: [{ fragility: 'sound' }, { fragility: 'weak' }, { fragility: 'very-degraded' }] },
  { observation: 'bleeding', steps: [{ alreadyBled: false }, { alreadyBled: true }] },
  { observation: 'hazards', steps: [{ hazards: [] }, { hazards: ['sewage'] }, { hazards: ['sewage', 'lithium-cell'] }] },
  { observation: 'market value', steps: [{ highMarketValue: false }, { highMarketValue: true }] },
  { observation: 'significance', steps: [{ significance: 'everyday' }, { significance: 'valued' }, { significance: 'treasured' }, { significance: 'irreplaceable' }] },
  {
    observation: 'colour test',
    steps: (['5', '4-5', '4', '3-4', '3', '2-3', '2', '1-2', '1'] as const).map((reading) => ({
      allColoursTested: true,
      colourTests: [{ colour: 'red', solution: 'water', method: 'blotter', reading }],
    })),
  },
];

describe.each(RELEASES)('release %s', (release) => {
  const book = buildBook({ release });
  const triage = (assessment: Assessment, context: TriageContext) => triageBy(assessment, context, DEFAULT_CALIBRATION, book);
  const triageOutcome = (assessment: Assessment, context: TriageContext) => outcomeBy(assessment, context, DEFAULT_CALIBRATION, book);
  const RULE_IDS = new Set(book.rules.map((rule) => rule.id));

  /** Asserts that `worse` is never less urgent, in level and in start-by moment. */
  function neverLessUrgent(better: Assessment, worse: Assessment, context: TriageContext): void {
    const [before, after] = [triageOutcome(better, context), triageOutcome(worse, context)];
    expect(level(after.urgency)).toBeLessThanOrEqual(level(before.urgency));
    expect(after.startByMs).toBeLessThanOrEqual(before.startByMs);
  }

  describe('triage of any well-typed assessment', () => {
    test('never throws, is deterministic and always stands as advice', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const result = triage(assessment, context);
          expect(triage(structuredClone(assessment), { ...context })).toEqual(result);
          expect(result.standing).toMatch(/override .* recorded reason/);
          expect(Number.isFinite(result.startByMs)).toBe(true);
        }),
        { numRuns: 120 },
      );
    });

    test('does not change the assessment it is given', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const before = structuredClone(assessment);
          triage(assessment, context);
          expect(assessment).toEqual(before);
        }),
        { numRuns: 60 },
      );
    });

    test('always leaves a way: options are never empty, never repeat, and each has one stabilising step', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const { options } = triageOutcome(assessment, context);
          expect(options.length).toBeGreaterThan(0);
          expect(new Set(options.map((option) => option.disposition)).size).toBe(options.length);
          for (const option of options) {
            expect(DISPOSITIONS).toContain(option.disposition);
            expect(option.steps.filter((step) => step.stabilises)).toHaveLength(1);
            expect(option.ruleIds.length).toBeGreaterThan(0);
          }
        }),
        RUNS,
      );
    });

    test('offers release without needs only where the owner’s agreement is recorded', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const release = triageOutcome(assessment, context).options.find((option) => option.disposition === 'release');
          if (assessment.consents.release === false) expect(release).toBeUndefined();
          if (release !== undefined && assessment.consents.release !== true) expect(release.needs.length).toBeGreaterThan(0);
          if (assessment.consents.release === true) expect(release?.needs).toEqual([]);
        }),
        RUNS,
      );
    });

    test('offers nothing without needs that the owner has refused or was not asked', () => {
      const consentFor = { treat: 'treat', 'hold-wet': 'treat', 'hold-frozen': 'freeze', refer: 'refer', release: 'release' } as const;
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          for (const option of triageOutcome(assessment, context).options) {
            if (assessment.consents[consentFor[option.disposition]] !== true) expect(option.needs.length).toBeGreaterThan(0);
          }
        }),
        RUNS,
      );
    });

    test('puts every way the owner has refused behind those still open', () => {
      const consentFor = { treat: 'treat', 'hold-wet': 'treat', 'hold-frozen': 'freeze', refer: 'refer', release: 'release' } as const;
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const refused = triageOutcome(assessment, context).options.map((option) => assessment.consents[consentFor[option.disposition]] === false);
          expect(refused).toEqual([...refused].sort((a, b) => Number(a) - Number(b)));
        }),
        RUNS,
      );
    });

    test('never freezes what must not be frozen', () => {
      const barred = fc.constantFrom(
        'photo-collodion-or-tintype' as const, 'photo-daguerreotype' as const, 'photo-glass-plate-gelatin' as const, 'photo-inkjet-or-digital-print' as const,
        'paper-framed' as const, 'textile-composite' as const, 'textile-painted-or-glazed' as const, 'unknown' as const,
      );
      fc.assert(
        fc.property(anyAssessment, anyContext, barred, (assessment, context, materialClass) => {
          const steps = triageOutcome({ ...assessment, materialClass }, context).options.flatMap((option) => option.steps.map(({ step }) => step));
          expect(steps).not.toContain('freeze');
        }),
        RUNS,
      );
    });

    test('never wets a dry thing, a bleeding textile or mould', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const steps = triageOutcome(assessment, context).options.flatMap((option) => option.steps.map(({ step }) => step));
          if (assessment.wetState === 'dry' || assessment.alreadyBled === true || assessment.mould === 'active') expect(steps).not.toContain('rinse');
        }),
        RUNS,
      );
    });

    test('tests colours before any textile is rinsed, unless all have passed', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const unproved = !assessment.allColoursTested || assessment.colourTests.length === 0;
          const treat = triageOutcome(assessment, context).options.find((option) => option.disposition === 'treat');
          const steps = (treat?.steps ?? []).map(({ step }) => step);
          if (assessment.materialClass.startsWith('textile') && unproved && steps.includes('rinse')) {
            expect(steps.indexOf('colour-test')).toBeGreaterThanOrEqual(0);
            expect(steps.indexOf('colour-test')).toBeLessThan(steps.indexOf('rinse'));
          }
        }),
        RUNS,
      );
    });

    test('moves from dirty or quarantine to clean and never back', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          for (const { steps } of triageOutcome(assessment, context).options) {
            const zones = steps.map(({ zone }) => zone).join(' ');
            expect(zones).toMatch(/^((dirty ?)*|(quarantine ?)*)((clean ?)*|(cold ?)*)$/);
          }
        }),
        RUNS,
      );
    });

    test('assigns no one under age on the dirty side and no one with a mould restriction to active mould', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          for (const step of triageOutcome(assessment, context).options.flatMap((option) => option.steps)) {
            if (step.zone === 'dirty' || step.zone === 'quarantine') expect(step.barredRestrictions).toContain('under-age');
            if (step.zone === 'quarantine') {
              expect(step.barredRestrictions).toContain('no-mould');
              expect(step.ppe).toContain('N95 respirator');
            }
          }
        }),
        RUNS,
      );
    });

    test('stops at hazards: no treatment, referral first, a statement to the competent authority', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, fc.constantFrom('sewage' as const, 'fuel-or-solvent' as const, 'pesticide' as const, 'arsenic-era-object' as const, 'unknown-liquid' as const, 'lithium-cell' as const, 'nitrate-film' as const), (assessment, context, hazard) => {
          const consents = { ...assessment.consents, refer: true };
          const result = triageOutcome({ ...assessment, consents, hazards: [hazard] }, context);
          expect(result.options[0]?.disposition).toBe('refer');
          expect(result.options.map((option) => option.disposition)).not.toContain('treat');
          expect(result.referral.some(({ text }) => /stop/i.test(text))).toBe(true);
          expect(result.bathGroup).toBeNull();
        }),
        RUNS,
      );
    });

    test('gives the freezing, drying and treating steps sane hands: positive minutes, a crew of at least one', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          for (const step of triageOutcome(assessment, context).options.flatMap((option) => option.steps)) {
            expect(step.minutesPerPiece).toBeGreaterThan(0);
            expect(step.crew).toBeGreaterThanOrEqual(1);
          }
        }),
        RUNS,
      );
    });

    test('repeats on the whole what it says of a step, so that nobody must open a route to read a caution', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const result = triageOutcome(assessment, context);
          const [cautions, ppe] = [result.cautions.map(({ text }) => text), result.ppe];
          for (const step of result.options.flatMap((option) => option.steps)) {
            expect(cautions).toEqual(expect.arrayContaining(step.cautions.map(({ text }) => text)));
            expect(ppe).toEqual(expect.arrayContaining(step.ppe));
          }
        }),
        { numRuns: 100 },
      );
    });

    test('names only rules that exist, each with its source', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const result = triage(assessment, context);
          for (const id of namedRules(result)) expect(RULE_IDS).toContain(id);
          for (const reason of result.reasons) expect(reason.source.cite).not.toBe('');
          const reasons = new Set(result.reasons.map(({ ruleId }) => ruleId));
          for (const id of namedRules(result)) expect(reasons).toContain(id);
        }),
        { numRuns: 80 },
      );
    });
  });

  describe('urgency', () => {
    test.each(LADDERS)('is never lowered by a worse answer about $observation', ({ steps }) => {
      fc.assert(
        fc.property(anyAssessment, anyContext, fc.integer({ min: 1, max: steps.length - 1 }), (assessment, context, index) => {
          neverLessUrgent({ ...assessment, ...steps[index - 1] }, { ...assessment, ...steps[index] }, context);
        }),
        RUNS,
      );
    });

    test('is never lowered by waiting or by an earlier wetting', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, fc.integer({ min: 1, max: 48 }), (assessment, context, hours) => {
          const later = { ...context, nowMs: context.nowMs + hours * 3_600_000 };
          expect(level(triageOutcome(assessment, later).urgency)).toBeLessThanOrEqual(level(triageOutcome(assessment, context).urgency));
          if (assessment.wettedAtMs !== null) neverLessUrgent(assessment, { ...assessment, wettedAtMs: assessment.wettedAtMs - hours * 3_600_000 }, context);
        }),
        RUNS,
      );
    });

    test('is never lowered by warmer air', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, fc.integer({ min: 1, max: 30 }), (assessment, context, degrees) => {
          const airTempC = context.airTempC ?? 20;
          const [cool, warm] = [triageOutcome(assessment, { ...context, airTempC }), triageOutcome(assessment, { ...context, airTempC: airTempC + degrees })];
          expect(warm.startByMs).toBeLessThanOrEqual(cool.startByMs);
        }),
        RUNS,
      );
    });

    const UNKNOWNS: { observation: string; unknown: Partial<Assessment>; answers: Partial<Assessment>[] }[] = [
      { observation: 'material', unknown: { materialClass: 'unknown' }, answers: MATERIAL_CLASSES.map((materialClass) => ({ materialClass })) },
      { observation: 'fibre', unknown: { fibre: 'unknown' }, answers: FIBRES.map((fibre) => ({ fibre })) },
      { observation: 'wet state', unknown: { wetState: 'unknown' }, answers: WET_STATES.map((wetState) => ({ wetState })) },
      { observation: 'water', unknown: { water: 'unknown' }, answers: WATER_KINDS.map((water) => ({ water })) },
      { observation: 'mould', unknown: { mould: 'unknown' }, answers: MOULD_STATES.map((mould) => ({ mould })) },
      { observation: 'fragility', unknown: { fragility: 'unknown' }, answers: FRAGILITIES.map((fragility) => ({ fragility })) },
      { observation: 'bleeding', unknown: { alreadyBled: null }, answers: [{ alreadyBled: true }, { alreadyBled: false }] },
      { observation: 'value', unknown: { highMarketValue: null }, answers: [{ highMarketValue: true }, { highMarketValue: false }] },
    ];
    test.each(UNKNOWNS)('of an unknown $observation is at least that of its best known answer', ({ unknown, answers }) => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const best = Math.max(...answers.map((answer) => triageOutcome({ ...assessment, ...answer }, context).startByMs));
          expect(triageOutcome({ ...assessment, ...unknown }, context).startByMs).toBeLessThanOrEqual(best);
        }),
        { numRuns: 100 },
      );
    });

    test('of an unknown wetting time is that of the flood’s beginning', () => {
      fc.assert(
        fc.property(anyAssessment, anyContext, (assessment, context) => {
          const unknown = triageOutcome({ ...assessment, wettedAtMs: null }, context);
          expect(unknown.startByMs).toBe(triageOutcome({ ...assessment, wettedAtMs: context.floodAtMs }, context).startByMs);
        }),
        RUNS,
      );
    });
  });
});
