import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseOwnerUnknown } from '../claims/unknown-owner.js';
import { lockOpenItem } from '../care/standing.js';
import { putQuestion, QUESTION_MOST_MS, QUESTION_STANDS_MS } from '../families/ask.js';
import type { IfNoneAnswers, Money, OwnerAnswer, OwnerQuestionRecord, QuestionKind } from '../ports/owner-question-store.js';
import type { Stores } from '../ports/work.js';

export interface AskOwnerInput {
  itemId: string;
  kind: QuestionKind;
  /** What the asker adds, or for the kind `other` asks, in both languages. */
  words: { en: string; es: string } | null;
  answers: OwnerAnswer[];
  amount: Money | null;
  ifNone: IfNoneAnswers;
  deadlineAtMs: number | null;
}

/** What is asked, with the words as they were given. */
export interface QuestionView {
  question: OwnerQuestionRecord;
  words: { en: string; es: string } | null;
}

/** A person asks the owner of a thing something that waits for an answer. @throws Problem already_exists when the same is open */
export async function askOwner(stores: Stores, call: UseCaseCall, input: AskOwnerInput): Promise<QuestionView> {
  const item = await lockOpenItem(stores, input.itemId);
  await refuseOwnerUnknown(stores, item);
  refuseUnasked(input);
  const deadlineAtMs = deadlineOf(call, input.deadlineAtMs);
  const id = call.env.newId();
  const ownWords = input.words === null ? null : await stores.personal.seal(item.householdId, wordsField(id), JSON.stringify(input.words));
  const { kind, answers, amount, ifNone } = input;
  const question = await putQuestion(stores, call, item, { id, kind, askedBy: 'person', ownWords, answers: [...new Set(answers)], amount, ifNone, deadlineAtMs });
  if (question === null) throw new Problem('already_exists', 'The same question about this item is open already. Wait for its answer, or withdraw it and ask again.');
  return { question, words: input.words };
}

/** The field under which the words of a question are sealed. */
export function wordsField(questionId: string): string {
  return `owner_question.own_words:${questionId}`;
}

/** A question with its words opened; null words where the household was erased. */
export async function openWords(stores: Stores, question: OwnerQuestionRecord): Promise<QuestionView> {
  const text = await stores.personal.open(question.householdId, wordsField(question.id), question.ownWords);
  return { question, words: text === null ? null : (JSON.parse(text) as { en: string; es: string }) };
}

/** @throws Problem not_found */
export async function lockQuestion(stores: Stores, questionId: string): Promise<OwnerQuestionRecord> {
  const question = await stores.ownerQuestions.lock(questionId);
  if (!question) throw notFound('question');
  return question;
}

function refuseUnasked({ kind, words, amount }: AskOwnerInput): void {
  const refuse = (detail: string, text: string, code: string, pointer: string) => new Problem('command_refused', text, { errors: [{ detail, code, pointer }] });
  if (kind === 'other' && words === null) throw refuse('is needed for this kind', 'A question of the kind `other` needs its words in English and Spanish.', 'words_missing', '#/words');
  if (amount !== null && kind !== 'refer') throw refuse('belongs to a referral only', 'An amount goes with a question about a specialist only.', 'amount_not_taken', '#/amount');
}

function deadlineOf(call: UseCaseCall, askedMs: number | null): number {
  const { nowMs } = call.env;
  const atMs = askedMs ?? nowMs + QUESTION_STANDS_MS;
  if (atMs > nowMs && atMs <= nowMs + QUESTION_MOST_MS) return atMs;
  throw new Problem('command_refused', `A question stands for at most 30 days from now. Name a time after ${new Date(nowMs).toISOString()}, or leave it out for 48 hours.`, { errors: [{ detail: 'is not within the time that a question may stand', code: 'deadline_not_allowed', pointer: '#/deadlineAt' }] });
}
