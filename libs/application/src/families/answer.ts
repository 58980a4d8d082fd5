import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { OwnerAnswer, OwnerQuestionRecord } from '../ports/owner-question-store.js';
import type { Stores } from '../ports/work.js';
import { MATTER_ADVICE, openMatter } from './matters.js';
import { putWord } from './put-word.js';

export interface Answering {
  answer: OwnerAnswer;
  by: 'link' | 'person';
  manner: ConsentRecord['manner'];
  note: string;
}

/** `same`: it was answered so before; `other`: it was answered otherwise, and the first answer stands; `late`: kept and shown to a person. */
export type AnswerOutcome = 'taken' | 'same' | 'other' | 'late';

/**
 * Takes an answer to a locked question. In time a yes or no is recorded as the owner's word with all that follows. After the deadline the answer
 * is kept and a person is told; it undoes nothing. A no that comes late counts from now on all the same: nobody is treated against their word.
 */
export async function takeAnswer(stores: Stores, call: UseCaseCall, household: HouseholdRecord, question: OwnerQuestionRecord, given: Answering): Promise<{ outcome: AnswerOutcome; question: OwnerQuestionRecord }> {
  if (question.state === 'answered') return { outcome: question.answer === given.answer ? 'same' : 'other', question };
  if (question.state !== 'open' && question.lateAnswer !== null) return { outcome: question.lateAnswer === given.answer ? 'same' : 'other', question };
  if (question.state === 'open' && call.env.nowMs < question.deadlineAtMs) return takeInTime(stores, call, household, question, given);
  return takeLate(stores, call, household, question, given);
}

async function takeInTime(stores: Stores, call: UseCaseCall, household: HouseholdRecord, question: OwnerQuestionRecord, given: Answering): Promise<{ outcome: AnswerOutcome; question: OwnerQuestionRecord }> {
  const word = given.answer === 'call-me' ? null : wordOf(call, question, given);
  const { answer } = given;
  const answered: OwnerQuestionRecord = { ...question, state: 'answered', endedAtMs: call.env.nowMs, answer, answeredBy: given.by, answererId: call.context.principalId, consentId: word?.id ?? null, version: question.version + 1 };
  // The word before the question that names it; closed first, so that the word does not answer it a second time.
  await stores.ownerQuestions.save({ ...answered, consentId: null });
  if (word !== null) {
    await putWord(stores, call, household, word);
    await stores.ownerQuestions.save(answered);
  }
  if (answer === 'call-me') await openMatter(stores, call, { ...about(question), kind: 'call-asked', advice: MATTER_ADVICE['call-asked'] });
  return { outcome: 'taken', question: answered };
}

async function takeLate(stores: Stores, call: UseCaseCall, household: HouseholdRecord, question: OwnerQuestionRecord, given: Answering): Promise<{ outcome: AnswerOutcome; question: OwnerQuestionRecord }> {
  const word = given.answer === 'no' ? wordOf(call, question, given) : null;
  const expired = question.state === 'open' ? { state: 'expired' as const, endedAtMs: call.env.nowMs } : {};
  const late: OwnerQuestionRecord = { ...question, ...expired, lateAnswer: given.answer, lateAnsweredAtMs: call.env.nowMs, version: question.version + 1 };
  await stores.ownerQuestions.save(late);
  if (word !== null) await putWord(stores, call, household, word);
  await openMatter(stores, call, { ...about(question), kind: 'answer-late', ...(word === null ? {} : { consentId: word.id }), advice: MATTER_ADVICE['answer-late'] });
  return { outcome: 'late', question: late };
}

function about(question: OwnerQuestionRecord): { incidentId: string; householdId: string; itemId: string; questionId: string } {
  return { incidentId: question.incidentId, householdId: question.householdId, itemId: question.itemId, questionId: question.id };
}

/** The consent that an answer gives or refuses; null where the question is about none. */
function wordOf(call: UseCaseCall, question: OwnerQuestionRecord, { answer, manner, note }: Answering): ConsentRecord | null {
  if (question.kind === 'other') return null;
  const given = answer === 'yes';
  return {
    id: call.env.newId(), incidentId: question.incidentId, householdId: question.householdId, itemId: question.itemId, scope: question.kind, given, manner, note,
    recordedBy: call.context.principalId, recordedAtMs: call.env.nowMs, limit: given ? question.amount : null,
  };
}

/** @throws Problem command_refused when the question does not take this answer */
export function refuseAnswer(question: OwnerQuestionRecord, answer: OwnerAnswer): void {
  if (question.answers.includes(answer)) return;
  throw new Problem('command_refused', `This question takes one of these answers: ${question.answers.join(', ')}.`, { errors: [{ detail: 'is none of the answers that the question allows', code: 'answer_not_allowed', pointer: '#/answer' }] });
}
