/** Whole triage results in Spanish, for assessments of every kind. */
import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { differencesInLanguage, inLanguage, MATERIAL_CLASSES, triage, triageOutcome, type TriageOutcome } from '#care';
import { buildBook, choicesOf, RELEASES, type ReleaseName } from '../../../libs/care/src/rule-book/index.js';
import { DEFAULT_CALIBRATION } from '../../../libs/care/src/calibration.js';
import { SPANISH } from '../../../libs/care/src/messages/es/index.js';
import { anyAssessment, anyContext, contextAt, knownAssessment, unknownAssessment } from './assessments.support.js';

/** Members of a result that hold sentences; everything else is data. */
const SENTENCES = new Set(['text', 'needs', 'ppe', 'cite', 'standing']);

interface Told {
  path: string;
  /** Said to people, and not a code. */
  said: boolean;
  text: string;
}

/** Every string of a value by its path; titles of publications are left out. */
function strings(value: unknown, path: string, said: boolean): Told[] {
  if (typeof value === 'string') return [{ path, said, text: value }];
  if (typeof value !== 'object' || value === null || ('mark' in value && value.mark === 'published')) return [];
  return Object.entries(value).flatMap(([key, member]) => strings(member, `${path}.${key}`, said || SENTENCES.has(key)));
}

function expectAllSpanish(result: TriageOutcome): void {
  const [before, after] = [result, inLanguage(result, 'es')].map((one) => strings(one, '', false)) as [Told[], Told[]];
  const wrong = before.filter(({ path, said, text }, index) => after[index]?.path !== path || after[index].text !== (said ? SPANISH.get(text) : text));
  expect(wrong).toEqual([]);
  expect(after.length).toBe(before.length);
}

describe('a triage result in Spanish', () => {
  test('has no English sentence left, and its data as they were, for any assessment at any hour', () => {
    fc.assert(fc.property(anyAssessment, anyContext, (assessment, context) => expectAllSpanish(triage(assessment, context))), { numRuns: 80 });
  });

  test('has none left for any material, with nothing known, dry or dripping', () => {
    for (const materialClass of MATERIAL_CLASSES) for (const wetState of ['unknown', 'dry', 'dripping'] as const) expectAllSpanish(triageOutcome(unknownAssessment({ materialClass, wetState }), contextAt(30)));
  });

  test('has none left whatever release a network follows and whatever choices it has made', () => {
    const switchedIn = (release: ReleaseName) => choicesOf(release).filter(({ floor }) => !floor).flatMap(({ id, options, default: usual }) => options.filter((option) => option.id !== usual).map((option) => ({ release, choices: { [id]: option.id } })));
    const switched = RELEASES.flatMap((release) => [{ release, choices: {} }, ...switchedIn(release)]);
    expect(switched.length).toBeGreaterThan(20);
    for (const followed of switched) {
      const book = buildBook(followed);
      for (const materialClass of MATERIAL_CLASSES) expectAllSpanish(triageOutcome(knownAssessment({ materialClass }), contextAt(5), DEFAULT_CALIBRATION, book));
    }
  });

  test('a result in English is the result, and a translation leaves it as it was', () => {
    const result = triage(unknownAssessment(), contextAt(5));
    const stored = structuredClone(result);
    expect(inLanguage(result, 'en')).toEqual(stored);
    inLanguage(result, 'es');
    expect(result).toEqual(stored);
  });

  test('a bleeding quilt is told to a Spanish-speaking lead as it is to an English-speaking one', () => {
    const { standing, never, askNext } = inLanguage(triage(unknownAssessment({ materialClass: 'textile-quilt-padded', alreadyBled: true }), contextAt(5)), 'es');
    expect(standing).toMatch(/^Consejos para una persona responsable/);
    expect(never.length).toBeGreaterThan(0);
    for (const { text } of never) expect(text).toMatch(/^Nunca /);
    for (const { text } of askNext) expect(text).toMatch(/^¿.*\?$/);
  });
});

test('what a triage changed is told with its sentences in Spanish and its codes as they are, also codes that are words elsewhere', () => {
  expect(
    differencesInLanguage(
      [
        { what: 'route', before: ['rinse', 'dry'], after: ['freeze'] },
        { what: 'binding', before: ['mould'], after: [] },
        { what: 'ppe', before: [], after: ['rubber boots'] },
        { what: 'apartFrom', before: [], after: ['freezer: Food.'] },
      ],
      'es',
    ),
  ).toEqual([
    { what: 'route', before: ['rinse', 'dry'], after: ['freeze'] },
    { what: 'binding', before: ['mould'], after: [] },
    { what: 'ppe', before: [], after: ['botas de goma'] },
    { what: 'apartFrom', before: [], after: ['freezer: Comida.'] },
  ]);
});
