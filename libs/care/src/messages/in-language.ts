/** What triage says, in the language of the person who reads it. Results are stored in English and translated when they are read. */
import type { Compared, Difference } from '../compare.js';
import type { TriageOutcome } from '../triage.js';
import type { CareStep, DispositionOption, Question, Reason, Source, Statement } from '../types.js';
import { translatorFor } from './render.js';
import type { Language } from './message.js';

/**
 * A triage result with every sentence in the language: needs, cautions, protection, prohibitions, consents, referral, storage,
 * reasons and what they rest on, questions, standing. Codes, ids and names of observations are data and stay; titles of
 * publications stay in their own language. What nobody has translated stays English.
 */
export function inLanguage<T extends TriageOutcome & { askNext?: readonly Question[] }>(result: T, language: Language): T {
  const told: TriageOutcome = {
    ...result,
    options: result.options.map((option) => optionInLanguage(option, language)),
    never: statementsInLanguage(result.never, language),
    cautions: statementsInLanguage(result.cautions, language),
    ppe: result.ppe.map(translatorFor(language)),
    consentNeeded: statementsInLanguage(result.consentNeeded, language),
    referral: statementsInLanguage(result.referral, language),
    apartFrom: statementsInLanguage(result.apartFrom, language),
    storage: statementsInLanguage(result.storage, language),
    reasons: result.reasons.map((reason) => reasonInLanguage(reason, language)),
    standing: translatorFor(language)(result.standing),
  };
  return { ...result, ...told, ...(result.askNext && { askNext: questionsInLanguage(result.askNext, language) }) };
}

/** Sentences with the rules that say them. */
export function statementsInLanguage<S extends Statement>(statements: readonly S[], language: Language): S[] {
  return statements.map((statement) => ({ ...statement, text: translatorFor(language)(statement.text) }));
}

/** A step with its protection and cautions. */
export function stepInLanguage(step: CareStep, language: Language): CareStep {
  return { ...step, ppe: step.ppe.map(translatorFor(language)), cautions: statementsInLanguage(step.cautions, language) };
}

/** What a sentence rests on. */
export function sourceInLanguage(source: Source, language: Language): Source {
  return { ...source, cite: translatorFor(language)(source.cite) };
}

/** Questions; their answers are data. */
export function questionsInLanguage(questions: readonly Question[], language: Language): Question[] {
  return questions.map((question) => ({ ...question, text: translatorFor(language)(question.text) }));
}

const SPOKEN: ReadonlySet<Compared> = new Set<Compared>(['needs', 'ppe', 'never', 'cautions', 'referral', 'apartFrom']);
const PLACE_AND_SENTENCE = /^([a-z]+: )?(.*)$/s;

/** What a new triage changed: sentences in the language, codes and times as they are. */
export function differencesInLanguage(differences: readonly Difference[], language: Language): Difference[] {
  const spoken = (text: string, what: Compared): string => {
    const [, place = '', sentence = text] = what === 'apartFrom' ? (PLACE_AND_SENTENCE.exec(text) ?? []) : [];
    return place + translatorFor(language)(sentence);
  };
  const told = (what: Compared, list: readonly string[]): readonly string[] => (SPOKEN.has(what) ? list.map((text) => spoken(text, what)) : list);
  return differences.map(({ what, before, after }) => ({ what, before: told(what, before), after: told(what, after) }));
}

function optionInLanguage(option: DispositionOption, language: Language): DispositionOption {
  return { ...option, needs: option.needs.map(translatorFor(language)), steps: option.steps.map((step) => stepInLanguage(step, language)) };
}

function reasonInLanguage(reason: Reason, language: Language): Reason {
  return { ...reason, text: translatorFor(language)(reason.text), source: sourceInLanguage(reason.source, language) };
}
