import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { buildBook, changesBetween, compareBooks, DEFAULT_BOOK, differencesBetween, MATERIAL_CLASSES, triageOutcome } from '#care';
import type { Assessment } from '#care';
import { anyAssessment, anyContext, contextAt, knownAssessment } from './assessment.support.js';

const told = (observed: Assessment, hours = 1) => ({ observed, result: triageOutcome(observed, contextAt(hours)) });

describe('what a new triage changed', () => {
  test('a colour that moved: the conclusions, the observation and the rules behind it', () => {
    const change = changesBetween(told(knownAssessment()), told(knownAssessment({ alreadyBled: true })));
    expect(change.observations).toEqual(['alreadyBled']);
    expect(change.differences.find(({ what }) => what === 'urgency')).toEqual({ what: 'urgency', before: ['within-two-days'], after: ['immediate'] });
    expect(change.differences.find(({ what }) => what === 'firstDisposition')).toEqual({ what: 'firstDisposition', before: ['treat'], after: ['refer'] });
    expect(change.rulesGained).toContainEqual({ ruleId: 'textile.bleeding.immediate', because: ['alreadyBled'] });
    expect(change.rulesLost.map(({ ruleId }) => ruleId)).toContain('textile.rinse.watch');
    expect([change.byTimeAlone, change.ruleBook]).toEqual([false, null]);
  });

  test('hours alone: nothing was observed, and the change says so', () => {
    const change = changesBetween(told(knownAssessment(), 1), told(knownAssessment(), 30));
    expect([change.byTimeAlone, change.observations]).toEqual([true, []]);
    expect(change.rulesGained.map(({ ruleId }) => ruleId)).toContain('water.worsens');
  });

  test('the same answers in another order of their members are no news', () => {
    const { consents, ...rest } = knownAssessment({ colourTests: [{ colour: 'red', solution: 'water', method: 'swab', reading: 'no-transfer' }] });
    const turned = { consents: Object.fromEntries(Object.entries(consents).toReversed()) as unknown as typeof consents, ...rest, colourTests: [{ reading: 'no-transfer', method: 'swab', solution: 'water', colour: 'red' }] } as const;
    expect(changesBetween(told({ consents, ...rest }), told({ ...turned, colourTests: [...turned.colourTests] })).observations).toEqual([]);
  });

  test('another rule book: both versions are named', () => {
    const observed = knownAssessment();
    const after = triageOutcome(observed, contextAt(1), undefined, buildBook({ choices: { 'mould-clock': '24h' } }));
    const change = changesBetween(told(observed), { observed, result: after });
    expect(change.ruleBook).toEqual({ before: DEFAULT_BOOK.version, after: after.ruleBookVersion });
    expect(change.byTimeAlone).toBe(false);
  });

  test('the same thing twice changes nothing, and the way back is the way there turned round', () => {
    fc.assert(
      fc.property(anyAssessment, anyAssessment, anyContext, (one, other, context) => {
        const [before, after] = [{ observed: one, result: triageOutcome(one, context) }, { observed: other, result: triageOutcome(other, context) }];
        expect(changesBetween(before, before)).toEqual({ differences: [], observations: [], rulesGained: [], rulesLost: [], byTimeAlone: false, ruleBook: null });
        const [there, back] = [changesBetween(before, after), changesBetween(after, before)];
        expect(back.differences).toEqual(there.differences.map(({ what, before: from, after: to }) => ({ what, before: to, after: from })));
        expect(back.rulesLost).toEqual(there.rulesGained);
      }),
      { numRuns: 60 },
    );
  });

  test('an order of saying is no change', () => {
    const result = triageOutcome(knownAssessment(), contextAt(1));
    expect(differencesBetween(result, { ...result, never: result.never.toReversed(), ppe: result.ppe.toReversed() })).toEqual([]);
    expect(differencesBetween(result, { ...result, options: result.options.toReversed() }).map(({ what }) => what)).toContain('dispositions');
  });
});

describe('two rule books over the same things', () => {
  const assessments = MATERIAL_CLASSES.map((materialClass) => knownAssessment({ materialClass }));

  test('the same book differs in nothing', () => {
    const comparison = compareBooks(DEFAULT_BOOK, DEFAULT_BOOK, assessments, contextAt(1));
    expect(comparison).toMatchObject({ compared: assessments.length, changed: [], laxer: [], firstDispositions: [] });
    expect(Object.values(comparison.counts).every((count) => count === 0)).toBe(true);
  });

  test('a longer coated-paper clock starts coated paper later and nothing else, and is shown as laxer', () => {
    const comparison = compareBooks(DEFAULT_BOOK, buildBook({ choices: { 'coated-paper': '24h' } }), assessments, contextAt(1));
    expect(comparison.changed.map(({ index }) => assessments[index]?.materialClass)).toEqual(['paper-coated']);
    expect(comparison.laxer).toEqual([MATERIAL_CLASSES.indexOf('paper-coated')]);
    expect(comparison.counts).toMatchObject({ startBy: 1, urgency: 1, firstDisposition: 0, never: 0 });
  });

  test('a stricter choice is not laxer, and first ways that move are counted', () => {
    const comparison = compareBooks(DEFAULT_BOOK, buildBook({ choices: { 'photographs-in-freezer': 'pest-protocol' } }), assessments, contextAt(1));
    expect(comparison.laxer).toEqual([]);
    expect(comparison.firstDispositions).toEqual([{ before: 'hold-frozen', after: 'treat', count: 1 }]);
    expect(comparison.versions.after).toContain('photographs-in-freezer=pest-protocol');
  });

  test('a prohibition that falls away is laxer', () => {
    const comparison = compareBooks(DEFAULT_BOOK, buildBook({ choices: { sunlight: 'everyday-only' } }), [knownAssessment({ significance: 'everyday' }), knownAssessment()], contextAt(1));
    expect(comparison.laxer).toEqual([0]);
    expect(comparison.changed).toHaveLength(1);
  });
});
