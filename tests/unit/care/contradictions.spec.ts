import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import type { Assessment, ContradictionCode, TriageContext } from '#care';
import { CONTRADICTION_CODES, contradictionsIn } from '#care';
import { anyAssessment, anyContext, contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from './assessment.support.js';

const TESTED = [{ colour: 'Red border ', solution: 'water', method: 'swab', reading: '5' }] as const;
const codes = (changes: Partial<Assessment>, context: Partial<TriageContext> = {}): ContradictionCode[] => contradictionsIn(knownAssessment(changes), contextAt(2, context)).map(({ code }) => code);

describe('observations that cannot all be true', () => {
  const CASES: [ContradictionCode, Partial<Assessment>, Partial<TriageContext>?][] = [
    ['wetted-ahead', { wettedAtMs: FLOOD_AT_MS + 3 * HOUR_MS }],
    ['wetting-time-not-a-time', { wettedAtMs: Number.NaN }],
    ['count-not-whole', { count: 0 }],
    ['dripping-after-drying', { wetState: 'dripping' }, { doneSteps: ['dry'] }],
    ['dripping-while-frozen', { wetState: 'dripping' }, { doneSteps: ['wrap', 'freeze'] }],
    ['silk-of-another-fibre', { materialClass: 'textile-silk', fibre: 'polyester' }],
    ['wool-of-another-fibre', { materialClass: 'textile-wool', fibre: 'cotton' }],
    ['fibre-of-no-textile', { materialClass: 'photo-albumen', fibre: 'silk' }],
    ['all-tested-without-test', { allColoursTested: true, colourTests: [] }],
    ['colour-without-name', { colourTests: [{ ...TESTED[0], colour: ' ' }] }],
    ['colour-not-listed', { colours: ['blue ground'], colourTests: [...TESTED] }],
    ['mud-from-clean-water', { water: 'clean', soil: 'heavy-mud' }],
    ['sewage-in-clean-water', { water: 'clean', hazards: ['sewage'] }],
    ['part-named-unknown', { parts: ['unknown'] }],
  ];
  test.each(CASES.map(([code, changes, context = {}]) => [code, changes, context] as const))('%s is found by itself, with the members it lies in', (code, changes, context) => {
    const found = contradictionsIn(knownAssessment(changes), contextAt(2, context));
    expect(found.map((one) => one.code)).toEqual([code]);
    expect(found[0]?.members.length).toBeGreaterThan(0);
    expect(found[0]?.text.length).toBeGreaterThan(20);
  });

  test('every kind has its case', () => expect(CASES.map(([code]) => code)).toEqual([...CONTRADICTION_CODES]));

  test('are told all at once', () => {
    expect(codes({ wettedAtMs: FLOOD_AT_MS + 3 * HOUR_MS, count: -1, materialClass: 'photo-albumen', fibre: 'wool', soil: 'heavy-mud' })).toEqual(['wetted-ahead', 'count-not-whole', 'fibre-of-no-textile', 'mud-from-clean-water']);
  });

  test.each<[string, Partial<Assessment>]>([
    ['silk of mixed fibre', { materialClass: 'textile-silk', fibre: 'mixed' }],
    ['canvas of linen', { materialClass: 'painting-canvas', fibre: 'linen' }],
    ['a metal frame with a silk lining', { materialClass: 'metal-other', parts: ['textile-silk'], fibre: 'silk' }],
    ['a listed colour in other letters', { colours: ['RED BORDER'], colourTests: [...TESTED] }],
    ['mud from unknown water', { water: 'unknown', soil: 'heavy-mud' }],
    ['active mould in the freezer', { mould: 'active' }],
    ['wet this instant', { wettedAtMs: FLOOD_AT_MS + 2 * HOUR_MS }],
  ])('%s is no contradiction', (_what, changes) => expect(codes(changes)).toEqual([]));

  test('are found or not, but never thrown over, whatever is observed', () => {
    fc.assert(
      fc.property(anyAssessment, anyContext, (assessment, context) => {
        const before = structuredClone(assessment);
        for (const { code } of contradictionsIn(assessment, context)) expect(CONTRADICTION_CODES).toContain(code);
        expect(assessment).toEqual(before);
      }),
    );
  });
});
