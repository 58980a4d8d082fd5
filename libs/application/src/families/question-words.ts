/** What owners are asked, in words for somebody who has just lost a home: no trade words, no promise, no blame. */
import { say, type Language, type Message } from '#care';
import type { IfNoneAnswers, Money, OwnerAnswer, OwnerQuestionRecord, QuestionKind } from '../ports/owner-question-store.js';

type Asked = Exclude<QuestionKind, 'other'>;

const QUESTIONS: Readonly<Record<Asked, Message>> = {
  treat: say('May we clean and dry it?'),
  freeze: say('May we freeze it?'),
  refer: say('May a specialist work on it?'),
  release: say('May we stop trying to save it and let it go?'),
  photograph: say('May we take photographs of it and keep them?'),
};

const MEANINGS: Readonly<Record<Asked, Message>> = {
  treat: say('We would use clean water, cloths and air. Colours may run and its shape may change. We cannot promise how it turns out.'),
  freeze: say('Freezing slows the damage and gives us time. It may stay frozen for weeks or months.'),
  refer: say('A specialist has tools and skills that we do not have. It would leave our hall and come back to us afterwards.'),
  release: say('If you say yes, it does not come back. You need not decide now: as long as you say nothing, we keep it.'),
  photograph: say('They help the people who work on it. It is all right to say no.'),
};

export const ANSWER_WORDS: Readonly<Record<OwnerAnswer, Message>> = { yes: say('Yes'), no: say('No, please do not'), 'call-me': say('I would rather speak with someone first') };

const IF_NONE_WORDS: Readonly<Record<IfNoneAnswers, (until: string) => Message>> = {
  hold: (until) => say('Please answer by {until} if you can. If you do not, we keep it as it is, as well as we can, and somebody tries to reach you. We let nothing go without your word.', { until }),
  'general-word': (until) => say('Please answer by {until} if you can. If you do not, we go by what you told us for all of your things. We let nothing go without your word.', { until }),
};

/** What a family is asked: the question, and what a yes means. */
export function questionWords(question: Pick<OwnerQuestionRecord, 'kind' | 'amount'>, language: Language, own: { en: string; es: string } | null): { asks: Message | string; means: (Message | string)[] } {
  const { kind, amount } = question;
  const added = own === null ? [] : [own[language]];
  if (kind === 'other') return { asks: added[0] ?? '', means: [] };
  const cost = amount === null ? [] : [say('It may cost you up to {amount}. Before it costs more, we ask you again.', { amount: moneyInWords(amount, language) })];
  return { asks: QUESTIONS[kind], means: [MEANINGS[kind], ...cost, ...added] };
}

/** For a question whose time is over. */
export const OVERDUE_WORDS = say('The time we had set is over, and that is all right. You can still answer: somebody reads it and speaks with you. We let nothing go without your word.');

/** What happens when nobody answers. */
export function ifNoneWords(ifNone: IfNoneAnswers, until: string): Message {
  return IF_NONE_WORDS[ifNone](until);
}

const AS_IN: Readonly<Record<Language, string>> = { en: 'en', es: 'es-419' };

/** An amount as people write it; how many decimals a currency has is data of the runtime (ISO 4217 through CLDR). */
export function moneyInWords({ minor, currency }: Money, language: Language): string {
  const format = new Intl.NumberFormat(AS_IN[language], { style: 'currency', currency, currencyDisplay: 'code' });
  return format.format(minor / 10 ** (format.resolvedOptions().maximumFractionDigits ?? 2)).replaceAll(/\u00a0/g, ' ');
}
