/** Words for families: every state has some, in both languages, without trade words, promise or blame. */
import { describe, expect, test } from '@jest/globals';
import { messageWords, moneyInWords, questionWords, safeStop, statusWords } from '#application';
import { LANGUAGES, MATERIAL_CLASSES, render, STEP_KINDS, translate, type Language, type Message } from '#care';
import { NO_MATTERS, STAGES } from '#custody';
import { FAMILIES } from '../../../libs/care/src/messages/es/families.js';

const KINDS = ['treat', 'freeze', 'refer', 'release', 'photograph'] as const;
const TEMPLATES = ['taken-in', 'question', 'reminder', 'ready', 'handed-back', 'not-saved'] as const;
const say = (words: Message | string, language: Language): string => (typeof words === 'string' ? words : render(words, language));

/** Words of ours that a family need not know, words that promise, and words that blame. */
const NEVER = /\b(triage|custody|keeper|disposition|consent|incident|household|item|lot|status|process(?:ed|ing)?|guarantee|promise to|will be saved|as good as new|you (?:should|must|failed|forgot)|triaje|custodia|garantiza|como nuev|usted debe|olvid)/i;

/** What families read, all of it. */
function forFamilies(language: Language): string[] {
  const item = { keeper: { kind: 'holding', id: 'x' } as const, matters: NO_MATTERS, waitingForOwner: false };
  const statuses = STAGES.flatMap((stage) => [null, ...STEP_KINDS].map((nextStep) => say(statusWords({ ...item, stage, nextStep }), language)));
  const others = [{ matters: { ...NO_MATTERS, missing: true } }, { matters: { ...NO_MATTERS, disputed: true } }, { waitingForOwner: true }, { keeper: { kind: 'courier', id: 'x' } as const }, { keeper: { kind: 'partner-network', id: 'x' } as const }].map((change) => say(statusWords({ ...item, stage: 'waiting', nextStep: null, ...change }), language));
  const questions = KINDS.flatMap((kind) => {
    const { asks, means } = questionWords({ kind, amount: kind === 'refer' ? { minor: 25_000, currency: 'USD' } : null }, language, null);
    return [asks, ...means].map((words) => say(words, language));
  });
  const messages = TEMPLATES.flatMap((template) => [1, 3].flatMap((n) => {
    const { subject, lines } = messageWords(template, { things: n, questions: n, until: 'Sunday 10 May, 12:00' }, 'https://things.example/s/x');
    return [subject, ...lines].map((words) => say(words, language));
  }));
  return [...new Set([...statuses, ...others, ...questions, ...messages])];
}

describe.each([...LANGUAGES])('in %s', (language) => {
  test('nothing that families read holds a trade word, a promise or blame', () => {
    const read = forFamilies(language);
    expect(read.length).toBeGreaterThan(35);
    expect(read.filter((text) => NEVER.test(text))).toEqual([]);
  });

  test('sentences are short: none has more than 40 words', () => {
    for (const text of forFamilies(language)) for (const sentence of text.split(/[.!?:]\s/)) expect([sentence, sentence.split(/\s+/).length <= 40]).toEqual([sentence, true]);
  });

  test('an amount is written with its currency, with the decimals that the currency has', () => {
    expect(moneyInWords({ minor: 25_050, currency: 'USD' }, language)).toMatch(/USD\s?250\.50/);
    expect(moneyInWords({ minor: 25_050, currency: 'JPY' }, language)).toMatch(/JPY\s?25,050/);
  });
});

test('every sentence of the catalogue for families is another one in Spanish, and no English word has stayed in it', () => {
  for (const [english, spanish] of Object.entries(FAMILIES)) {
    expect(spanish).not.toBe(english);
    expect([spanish, /\b(the|your|please|with|you)\b/i.test(spanish)]).toEqual([spanish, false]);
  }
  expect(translate('Your things', 'es')).toBe('Sus cosas');
  expect(MATERIAL_CLASSES.length).toBeGreaterThan(40);
});

describe('a yes that is taken back', () => {
  test.each([
    ['treat', 'in-work', 'rinse', 'rinse'], ['treat', 'in-work', 'stabilise', 'stabilise'], ['treat', 'in-work', 'blot', 'blot'], ['treat', 'in-work', 'surface-clean', 'surface-clean'], ['treat', 'drying', 'dry', 'dry'], ['treat', 'drying', null, 'dry'],
    ['freeze', 'held-frozen', 'thaw', 'freeze'], ['refer', 'referred-out', null, 'refer'],
  ] as const)('%s, %s before %s: stops at %s with advice to a trained lead that leaves the thing safe and begins nothing', (scope, stage, nextStep, step) => {
    const stop = safeStop({ stage, nextStep }, scope);
    expect(stop?.step).toBe(step);
    for (const language of LANGUAGES) expect(say(stop?.advice ?? '', language)).toMatch(language === 'en' ? /trained lead/ : /responsable con formación/);
  });

  test('stops nothing where nothing of the kind is under way', () => {
    for (const stage of STAGES) {
      if (stage !== 'held-frozen') expect(safeStop({ stage, nextStep: 'freeze' }, 'freeze')).toBeNull();
      if (stage !== 'referred-out') expect(safeStop({ stage, nextStep: 'refer' }, 'refer')).toBeNull();
      if (stage !== 'drying' && stage !== 'in-work') expect(safeStop({ stage, nextStep: 'rinse' }, 'treat')).toBeNull();
      expect(safeStop({ stage, nextStep: 'rinse' }, 'photograph')).toBeNull();
    }
    expect(safeStop({ stage: 'in-work', nextStep: 'colour-test' }, 'treat')).toBeNull();
  });
});
