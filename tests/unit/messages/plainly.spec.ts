/** What is put together when an answer is read out: gloves in one line, and no prohibition beside a stricter one. */
import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { buildBook, DEFAULT_CALIBRATION, MATERIAL_CLASSES, neverPlainly, plainly, RULE_BOOK, translate, triageOutcome, wornPlainly } from '#care';
import { RELEASES } from '../../../libs/care/src/rule-book/index.js';
import { anyAssessment, anyContext, contextAt, knownAssessment } from './assessments.support.js';

/** Every kind of glove that a rule asks for. */
const GLOVES = [...new Set(RULE_BOOK.flatMap(({ concludes }) => concludes).flatMap((conclusion) => (conclusion.kind === 'ppe' ? conclusion.items.filter((item) => /glove/.test(item)) : [])))];
const anyGloves = fc.subarray(GLOVES, { minLength: 1 });
const others = ['rubber boots', 'goggles', 'apron or gown', 'N95 respirator'];

describe('gloves of several rules', () => {
  test('the rule book asks for several kinds', () => expect(GLOVES.length).toBeGreaterThan(5));

  test('are one line, in the place of the first, with everything else as it was', () => {
    fc.assert(
      fc.property(anyGloves, fc.subarray(others), (gloves, rest) => {
        const worn = wornPlainly([...gloves, ...rest]);
        expect(worn.slice(1)).toEqual(rest);
        expect(worn[0]).toMatch(/glove/);
        if (gloves.length === 1) expect(worn[0]).toBe(gloves[0]);
      }),
    );
  });

  test('ask for no less than any of the rules: rubber, water, cuts and nitrile are all still said', () => {
    fc.assert(
      fc.property(anyGloves, (gloves) => {
        const [line = ''] = wornPlainly(gloves);
        const asked = gloves.join(' | ');
        if (/rubber/.test(asked)) expect(line).toContain('waterproof rubber gloves');
        if (/waterproof/.test(asked)) expect(line).toMatch(/waterproof|let no water through/);
        if (/cut-resistant/.test(asked)) expect(line).toContain('cut-resistant gloves');
        if (/powder-free/.test(asked)) expect(line).toContain('powder-free nitrile gloves');
      }),
      { numRuns: 500 },
    );
  });

  test('have a Spanish line whatever the rules', () => {
    fc.assert(fc.property(anyGloves, (gloves) => expect(wornPlainly(gloves).map((line) => translate(line, 'es'))).toEqual([expect.stringMatching(/^guantes/)])), { numRuns: 500 });
  });

  test.each<[string[], string]>([
    [['waterproof rubber gloves', 'nitrile or other waterproof gloves', 'powder-free nitrile gloves'], 'powder-free nitrile gloves, with waterproof rubber gloves over them'],
    [['waterproof gloves', 'nitrile or other waterproof gloves', 'gloves', 'powder-free nitrile gloves'], 'powder-free nitrile gloves that let no water through'],
    [['cut-resistant gloves under the waterproof ones', 'nitrile or other waterproof gloves', 'powder-free nitrile gloves'], 'powder-free nitrile gloves, cut-resistant gloves over them against sharps, and waterproof gloves outermost'],
    [['waterproof gloves', 'gloves'], 'waterproof gloves'],
  ])('%j: %s', (gloves, line) => expect(wornPlainly(gloves)).toEqual([line]));
});

test('goggles are eye protection, and nothing is left out where only one of the two is asked for', () => {
  expect(wornPlainly(['goggles', 'eye protection'])).toEqual(['goggles']);
  expect(wornPlainly(['eye protection', 'apron or gown'])).toEqual(['eye protection', 'apron or gown']);
});

describe('a triage result that is read out', () => {
  test('names one line of gloves in every list, and keeps reasons, cautions, ways and steps as they are, for any thing', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const result = triageOutcome(assessment, context);
        const told = plainly(result);
        expect({ ...told, ppe: [], never: [], options: [] }).toEqual({ ...result, ppe: [], never: [], options: [] });
        expect(told.options.map(({ steps }) => steps.map((step) => ({ ...step, ppe: [] })))).toEqual(result.options.map(({ steps }) => steps.map((step) => ({ ...step, ppe: [] }))));
        for (const list of [told.ppe, ...told.options.flatMap(({ steps }) => steps.map(({ ppe }) => ppe))]) expect(list.filter((item) => /glove/.test(item)).length).toBeLessThanOrEqual(1);
      }),
      { numRuns: 100 },
    );
  });

  test.each(RELEASES)('tells of a wet colour print once that its picture side is not touched, by the release %s', (release) => {
    const result = triageOutcome(knownAssessment({ materialClass: 'photo-colour-print', wetState: 'wet' }), contextAt(5), DEFAULT_CALIBRATION, buildBook({ release }));
    expect(plainly(result).never.filter(({ text }) => /touch the (picture|image) side/.test(text))).toHaveLength(1);
  });

  test('leaves a prohibition out only where the stricter one stands beside it', () => {
    const [wet, always] = [{ ruleId: 'a', text: 'Never touch the image side while it is wet.' }, { ruleId: 'b', text: 'Never touch the picture side.' }];
    expect(neverPlainly([wet])).toEqual([wet]);
    expect(neverPlainly([wet, always])).toEqual([always]);
  });

  test('is what it was before for a material of which nothing is said twice', () => {
    for (const materialClass of MATERIAL_CLASSES) {
      const { never } = triageOutcome(knownAssessment({ materialClass }), contextAt(5));
      if (!never.some(({ text }) => text === 'Never touch the picture side.')) expect(neverPlainly(never)).toEqual(never);
    }
  });
});
