import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { COMPANY_RULES, companyFaults, MATERIAL_CLASSES, triageOutcome, type Assessment, type Companion } from '#care';
import { contextAt, knownAssessment } from './assessment.support.js';

/** A thing as triage leaves it: the rules of the book say what keeps it apart. */
function thing(change: Partial<Assessment> = {}): Companion {
  const assessment = knownAssessment(change);
  return { materialClass: assessment.materialClass, apartFrom: triageOutcome(assessment, contextAt(5)).apartFrom };
}

const faults = (comer: Companion, ...lying: Companion[]) => companyFaults(comer, lying).map(({ ruleId, with: others }) => [ruleId, others.length]);

// `apart.mould`, `apart.black-water`, `apart.bleeding` of the rule book: sources stand there.
describe('what must not lie together', () => {
  test('mouldy and clean, whichever comes to the other; mouldy with mouldy may', () => {
    const [mouldy, clean] = [thing({ mould: 'active' }), thing({ mould: 'none' })];
    expect(faults(mouldy, clean)).toContainEqual(['apart.mould', 1]);
    expect(faults(clean, mouldy, mouldy)).toContainEqual(['apart.mould', 2]);
    expect(faults(mouldy, mouldy)).toEqual([]);
    expect(faults(clean, clean)).toEqual([]);
  });

  test('unrinsed from black water and clean water', () => {
    const [black, clean] = [thing({ water: 'black' }), thing({ water: 'clean' })];
    expect(faults(black, clean)).toEqual([['apart.black-water', 1]]);
    expect(faults(clean, black)).toEqual([['apart.black-water', 1]]);
    expect(faults(black, black)).toEqual([]);
  });

  test('a bleeding textile and what could take its colour, another bleeding one too; glass takes none', () => {
    const [bleeding, fast, glass] = [thing({ alreadyBled: true }), thing(), thing({ materialClass: 'glass-object', colourTests: [], alreadyBled: null })];
    expect(faults(bleeding, fast)).toContainEqual(['apart.bleeding', 1]);
    expect(faults(fast, bleeding)).toContainEqual(['apart.bleeding', 1]);
    expect(faults(bleeding, bleeding)).toEqual([['apart.bleeding', 1]]);
    expect(faults(glass, bleeding)).not.toContainEqual(['apart.bleeding', 1]);
  });

  test('it makes no difference which of two comes to the other', () => {
    const any = fc.record({ materialClass: fc.constantFrom(...MATERIAL_CLASSES), apartFrom: fc.subarray(COMPANY_RULES.map((ruleId) => ({ ruleId }))) });
    fc.assert(fc.property(any, any, (one, other) => {
      expect(faults(one, other)).toEqual(faults(other, one));
    }));
  });
});
