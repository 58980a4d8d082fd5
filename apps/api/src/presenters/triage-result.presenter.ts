import type { z } from 'zod';
import { answerInWords, inLanguage, plainly, questionsInLanguage, render, startByInWords, type Language, type Question, type TriageOutcome } from '#care';
import type { triageResultMembers } from '#contracts';
import { iso } from './time.js';

type Body = z.output<z.ZodObject<typeof triageResultMembers>>;

/** The moment of reading, and whether nothing has to be begun any more: the thing is safe, or has left. */
export interface Reading {
  atMs: number;
  begun?: boolean;
}

/** What follows from an assessment, in a language; the same for a thing on record and for one that is only described. */
export function presentTriageResult(stored: TriageOutcome, askNext: readonly Question[] | null, language: Language, { atMs, begun = false }: Reading): Body {
  const result = inLanguage(plainly(stored), language);
  return {
    urgency: result.urgency,
    startBy: iso(result.startByMs),
    startByInWords: begun ? null : render(startByInWords(result.startByMs, atMs), language),
    binding: result.binding,
    clocks: result.clocks.map((clock) => ({ damage: clock.damage, warnAt: iso(clock.warnAtMs), deadlineAt: iso(clock.deadlineAtMs), ruleId: clock.ruleId })),
    options: result.options,
    never: result.never,
    cautions: result.cautions,
    ppe: result.ppe,
    consentNeeded: result.consentNeeded,
    referral: result.referral,
    bathGroup: result.bathGroup,
    apartFrom: result.apartFrom,
    freezer: result.freezer,
    storage: result.storage,
    treatedAs: result.treatedAs,
    reasons: result.reasons,
    askNext: askNext && presentQuestions(askNext, language),
    ruleBookVersion: result.ruleBookVersion,
    standing: result.standing,
  };
}

/** The answers are the values to send back; their words are for people. */
function presentQuestions(questions: readonly Question[], language: Language): Body['askNext'] {
  return questionsInLanguage(questions, language).map(({ couldBecome, ...question }) => ({
    ...question, couldBecome: couldBecome.map((outcome) => ({ ...outcome, inWords: answerInWords(question.observation, outcome.answer, language) })),
  }));
}
