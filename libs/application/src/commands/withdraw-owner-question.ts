import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { Stores } from '../ports/work.js';
import { lockQuestion, openWords, type QuestionView } from './ask-owner.js';

/** Takes an open question back. @throws Problem already_exists when it has ended */
export async function withdrawOwnerQuestion(stores: Stores, call: UseCaseCall, input: { ownerQuestionId: string }): Promise<QuestionView> {
  const question = await lockQuestion(stores, input.ownerQuestionId);
  if (question.state !== 'open') throw new Problem('already_exists', `The question is not open any more; it is ${question.state}.`, { members: { state: question.state } });
  const withdrawn = { ...question, state: 'withdrawn' as const, endedAtMs: call.env.nowMs, version: question.version + 1 };
  await stores.ownerQuestions.save(withdrawn);
  return openWords(stores, withdrawn);
}
