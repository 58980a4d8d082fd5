import { describe, expect, test } from '@jest/globals';
import { render, renderWithin, say, STEP_WORDS, translate, translatorFor } from '#care';

describe('a message in a language', () => {
  test('is its own English, and its Spanish where there is one', () => {
    expect(render(say('It is drying.'), 'en')).toBe('It is drying.');
    expect(render(say('It is drying.'), 'es')).toBe('Se está secando.');
    expect(['rinse', 'dry'].map(translatorFor('es'))).toEqual(['enjuagar', 'secar']);
  });

  test('is English rather than nothing where nobody has translated it', () => {
    expect(translate('Said by a book of another year.', 'es')).toBe('Said by a book of another year.');
    expect(render({ text: 'Of {count, plural, one {# year} other {# years}}.', values: { count: 2 } }, 'es')).toBe('Of 2 years.');
  });

  test('counts in each language', () => {
    const ago = (hours: number) => say('{hours, plural, one {# hour ago} other {# hours ago}}', { hours });
    expect([1, 12].map((hours) => render(ago(hours), 'es'))).toEqual(['hace 1 hora', 'hace 12 horas']);
    expect([1, 12].map((hours) => render(ago(hours), 'en'))).toEqual(['1 hour ago', '12 hours ago']);
  });

  test('says a word that is put into a sentence in the same language', () => {
    expect(render({ text: 'Now: {step}', values: { step: STEP_WORDS.rinse } }, 'es')).toBe('Now: enjuagar');
  });

  test.each(['{count}', "it's '{quoted}'", '<b>bold</b>', '{', "''", '#', 'constructor', '__proto__'])('what somebody typed, %s, is put in as it is and never read as a pattern', (typed) => {
    expect(render(say('Condition: {note}', { note: typed }), 'en')).toBe(`Condition: ${typed}`);
    expect(render(say('Condition: {note}', { note: typed }), 'es')).toBe(`Estado: ${typed}`);
    expect(translate(typed, 'es')).toBe(typed);
  });
});

test('data is told with the messages in it, and nothing else of it changes', () => {
  const data = { code: 'x', people: [{ id: 'tag', reasons: [{ text: say('It is drying.'), source: { mark: 'own', cite: { text: 'rinse' } } }] }], statement: { ruleId: 'r', text: 'It is drying.' }, none: null, count: 3 };
  expect(renderWithin(data, 'es')).toEqual({ ...data, people: [{ id: 'tag', reasons: [{ text: 'Se está secando.', source: { mark: 'own', cite: 'enjuagar' } }] }] });
});
