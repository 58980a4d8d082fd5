/** What nobody has translated does not land: the whole rule book, the calibration and every sentence in the code is walked. */
import { describe, expect, test } from '@jest/globals';
import { answerInWords, askNext, LANGUAGES, MATERIAL_CLASSES, translate } from '#care';
import { IntlMessageFormat } from 'intl-messageformat';
import { CALIBRATION as SPANISH_CALIBRATION } from '../../../libs/care/src/messages/es/calibration.js';
import { SPANISH, SPANISH_FILES } from '../../../libs/care/src/messages/es/index.js';
import { RETIRED } from '../../../libs/care/src/messages/es/retired.js';
import { contextAt, unknownAssessment } from './assessments.support.js';
import { sentencesInCode, sentencesOfRule, sentencesOfTable, sentencesOfTheCalibration, sentencesOfTheRuleBook, type Sentence } from './sentences.support.js';

const inCode = sentencesInCode();
const questions: Sentence[] = MATERIAL_CLASSES.flatMap((materialClass) => askNext(unknownAssessment({ materialClass }), contextAt(3)).map(({ text }) => ({ text, where: 'questions', pattern: false })));
const said: readonly Sentence[] = [...sentencesOfTheRuleBook(), ...sentencesOfTheCalibration(), ...inCode, ...questions];
const patterns = new Set(inCode.filter(({ pattern }) => pattern).map(({ text }) => text));

describe('the Spanish catalogue is complete', () => {
  test('English and Spanish are the languages', () => expect(LANGUAGES).toEqual(['en', 'es']));

  test('every sentence that the program can say has a Spanish one', () => {
    const missing = new Map(said.filter(({ text }) => !SPANISH.has(text)).map(({ text, where }) => [text, where]));
    expect([...missing].map(([text, where]) => `${where}: ${text}`)).toEqual([]);
  });

  test('no Spanish sentence stands for one that nobody says any more, except those kept for stored results', () => {
    const alive = new Set(said.map(({ text }) => text));
    expect([...SPANISH.keys()].filter((text) => alive.has(text) === Object.hasOwn(RETIRED, text))).toEqual([]);
  });

  test('every sentence stands in one file only, so that no translation hides another', () => {
    const all = Object.values(SPANISH_FILES).flatMap((sentences) => Object.keys(sentences));
    expect(all.filter((text, index) => all.indexOf(text) !== index)).toEqual([]);
  });

  test('the walk sees what a rule says in every place: a rule with new words everywhere is missed in all of them', () => {
    const found = sentencesOfRule('new', {
      text: 'a', choice: 'b', alternative: 'c', source: { mark: 'own-calibration', cite: 'd' },
      concludes: [
        { kind: 'caution', text: 'e' }, { kind: 'never', text: 'f' }, { kind: 'need', dispositions: ['treat'], text: 'g', consent: null }, { kind: 'ppe', items: ['h', 'i'] },
        { kind: 'referral', text: 'j' }, { kind: 'apart', place: 'bath', text: 'k' }, { kind: 'storage', text: 'l' }, { kind: 'bar', disposition: 'treat' },
      ],
    });
    expect(found.map(({ text }) => text).toSorted().join('')).toBe('abcdefghijkl');
    expect(sentencesOfRule('new', { source: { mark: 'published', cite: 'A title' } })).toEqual([]);
  });

  test('the file of the calibration holds what the tables of our own numbers say, and nothing else', () => {
    expect(new Set(Object.keys(SPANISH_CALIBRATION))).toEqual(new Set(sentencesOfTheCalibration().map(({ text }) => text)));
  });

  test('the walk sees why each number is what it is, and its unit where that is a word: a new one without Spanish is missed by its name', () => {
    const found = sentencesOfTable('climate', { newNumber: { why: 'a', unit: 'buckets' }, signed: { why: 'b', unit: 'kg/kg' } });
    expect(found.map(({ text, where }) => `${where}: ${text}`)).toEqual(['climate/newNumber: a', 'climate/newNumber: buckets', 'climate/signed: b']);
    expect(sentencesOfTheCalibration().map(({ where }) => where)).toEqual(expect.arrayContaining(['people/restHours', 'climate/openRackFactor']));
  });
});

/** Names of the values in a pattern with how they are used. */
function placeholders(pattern: string): string[] {
  const names = new Set<string>();
  const visit = (elements: readonly { type: number; value?: unknown; options?: Record<string, { value: unknown }> }[]): void => {
    for (const element of elements) {
      if (element.type !== 0 && typeof element.value === 'string') names.add(`${element.value} ${element.type}`);
      for (const option of Object.values(element.options ?? {})) visit(option.value as Parameters<typeof visit>[0]);
    }
  };
  visit(new IntlMessageFormat(pattern, 'en', undefined, { ignoreTag: true }).getAst() as Parameters<typeof visit>[0]);
  return [...names].sort();
}

const pairs = [...SPANISH];
const digits = (text: string): string[] => (text.match(/\d+/g) ?? []).toSorted();
/** The same in both languages. */
const ALIKE = new Set(['no', '{place}: {what}', '{all} {one}', '{all}, {one}', '{tempC} °C']);

describe('a translation says what the English says, as far as a program can see', () => {
  test('patterns take the same values in both languages', () => {
    const unlike = pairs.filter(([text]) => patterns.has(text)).filter(([text, spanish]) => placeholders(text).join() !== placeholders(spanish).join());
    expect(unlike).toEqual([]);
  });

  test('a sentence without values has no braces that would be printed', () => {
    expect(pairs.filter(([text, spanish]) => !patterns.has(text) && /[{}]/.test(text + spanish))).toEqual([]);
  });

  test('every number stands in both: 48 hours stay 48 hours', () => {
    expect(pairs.filter(([text, spanish]) => digits(text).join() !== digits(spanish).join())).toEqual([]);
  });

  test('what must never be done must never be done in Spanish', () => {
    expect(pairs.filter(([text]) => text.startsWith('Never ')).filter(([, spanish]) => !spanish.startsWith('Nunca '))).toEqual([]);
  });

  test('questions stay questions, sentences stay sentences, and nothing is empty or left in English', () => {
    const ending = (text: string): string => /[.?:]$/.exec(text)?.[0] ?? '';
    expect(pairs.filter(([text, spanish]) => spanish.trim() === '' || (spanish === text && !ALIKE.has(text)))).toEqual([]);
    expect(pairs.filter(([text, spanish]) => ending(text) !== ending(spanish) || text.includes('?') !== spanish.includes('¿'))).toEqual([]);
  });
});

test('every answer to every question has words, in both languages', () => {
  const wordless: [string, string][] = [];
  for (const materialClass of MATERIAL_CLASSES) {
    for (const { observation, couldBecome } of askNext(unknownAssessment({ materialClass }), contextAt(3))) {
      for (const { answer } of couldBecome) {
        const [english, spanish] = [answerInWords(observation, answer, 'en'), answerInWords(observation, answer, 'es')];
        if (SPANISH.get(english) !== spanish && !/ hours? ago$/.test(english)) wordless.push([observation, answer]);
      }
    }
  }
  expect(wordless).toEqual([]);
  expect(translate('nobody has translated this', 'es')).toBe('nobody has translated this');
});
