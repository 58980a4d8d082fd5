import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseAnswer, takeAnswer, type AnswerOutcome } from '../families/answer.js';
import type { OwnerAnswer, OwnerQuestionRecord } from '../ports/owner-question-store.js';
import type { StatusLinkRecord } from '../ports/status-link-store.js';
import type { Stores } from '../ports/work.js';
import { lockQuestion, openWords, type QuestionView } from './ask-owner.js';

export interface RecordOwnerAnswerInput {
  ownerQuestionId: string;
  answer: OwnerAnswer;
  manner: 'spoken' | 'written';
  note: string;
}

/** A person records what the owner said to a question. @throws Problem command_refused when it was answered otherwise */
export async function recordOwnerAnswer(stores: Stores, call: UseCaseCall, input: RecordOwnerAnswerInput): Promise<QuestionView> {
  const question = await lockQuestion(stores, input.ownerQuestionId);
  refuseAnswer(question, input.answer);
  const household = await stores.households.find(question.householdId);
  if (!household) throw notFound('household');
  const taken = await takeAnswer(stores, call, household, question, { answer: input.answer, by: 'person', manner: input.manner, note: input.note });
  if (taken.outcome === 'other') throw new Problem('already_exists', `It was answered before: ${taken.question.answer ?? taken.question.lateAnswer}. A change of mind is a new word of the owner: record it with POST /v1/households/{householdId}/consents.`);
  return openWords(stores, taken.question);
}

export interface AnswerByLinkInput {
  link: StatusLinkRecord;
  questionId: string;
  answer: OwnerAnswer;
  /** The pick-up code was given with it. */
  withCode: boolean;
}

/** What only the pick-up code opens: agreeing to what cannot be undone, or to what may cost money. Saying no never needs it. */
export function needsCode(question: Pick<OwnerQuestionRecord, 'kind' | 'amount'>, answer: OwnerAnswer): boolean {
  return answer === 'yes' && (question.kind === 'release' || question.amount !== null);
}

/**
 * The family answers on its page. The first answer to a question stands; the same one again changes nothing.
 * @throws Problem not_found for a question that is not one of this family's
 */
export async function answerByLink(stores: Stores, call: UseCaseCall, { link, questionId, answer, withCode }: AnswerByLinkInput): Promise<AnswerOutcome | 'code-needed'> {
  const question = await stores.ownerQuestions.lock(questionId);
  if (question?.householdId !== link.householdId || !question.answers.includes(answer)) throw notFound('question');
  if (needsCode(question, answer) && !withCode) return 'code-needed';
  const household = await stores.households.find(link.householdId);
  if (!household) throw notFound('household');
  return (await takeAnswer(stores, call, household, question, { answer, by: 'link', manner: 'link', note: '' })).outcome;
}
