import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { OwnerQuestionRecord } from '../ports/owner-question-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { MATTER_ADVICE, openMatter } from './matters.js';
import { queueMessage } from './queue-message.js';

export type FamilyLookOutcome = 'looked' | 'overtaken';

/** A reminder goes out when this part of the time is left; our own calibration. */
const REMIND_AT = 1 / 3;
/** Until a look that failed for good is tried again: meanwhile answers go by the deadline itself. */
const AGAIN_MS = 3_600_000;

/**
 * The worker's look at the questions to one family: those without an answer end by their time, those about what has left are withdrawn, and the
 * family is told once of what is new and reminded once of what is still open. Run twice, it does it once.
 */
export function runFamilyLook(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<FamilyLookOutcome> {
  return unitOfWork.write(context, async (stores) => {
    if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
    const open: OwnerQuestionRecord[] = [];
    for (const { id } of (await stores.ownerQuestions.ofHousehold(message.subjectId)).filter(({ state }) => state === 'open')) {
      const question = await stores.ownerQuestions.lock(id);
      if (question?.state === 'open' && !(await endedNow(stores, { context, env }, question))) open.push(question);
    }
    await tell(stores, { context, env }, open);
    const nextAtMs = Math.min(...open.flatMap((question) => [question.deadlineAtMs, ...(question.remindedAtMs === null ? [remindAtMs(question)] : [])]).filter((atMs) => atMs > env.nowMs));
    if (Number.isFinite(nextAtMs)) await stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'family.look' }, nextAtMs - env.nowMs);
    return 'looked';
  });
}

export async function giveUpFamilyLook(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, (stores) => stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'family.look' }, AGAIN_MS));
}

function remindAtMs({ askedAtMs, deadlineAtMs }: OwnerQuestionRecord): number {
  return deadlineAtMs - (deadlineAtMs - askedAtMs) * REMIND_AT;
}

/** Ends a question whose time is over or whose thing has left; true when it did. */
async function endedNow(stores: Stores, call: UseCaseCall, question: OwnerQuestionRecord): Promise<boolean> {
  const item = await stores.items.find(question.itemId);
  if (!item || TERMINAL_STAGES.includes(item.stage)) {
    await stores.ownerQuestions.save({ ...question, state: 'withdrawn', endedAtMs: call.env.nowMs });
    return true;
  }
  if (call.env.nowMs < question.deadlineAtMs) return false;
  await stores.ownerQuestions.save({ ...question, state: 'expired', endedAtMs: call.env.nowMs });
  const { incidentId, householdId, itemId, id } = question;
  await openMatter(stores, call, { incidentId, householdId, kind: 'question-expired', itemId, questionId: id, advice: MATTER_ADVICE['question-expired'] });
  return true;
}

/** One message for all questions that are new, and one reminder for all that near their deadline: a family is not to be flooded a second time. */
async function tell(stores: Stores, call: UseCaseCall, open: readonly OwnerQuestionRecord[]): Promise<void> {
  const { nowMs } = call.env;
  const fresh = open.filter(({ toldAtMs }) => toldAtMs === null);
  const due = open.filter((question) => question.toldAtMs !== null && question.remindedAtMs === null && nowMs >= remindAtMs(question));
  for (const [template, questions, stamp] of [['question', fresh, 'toldAtMs'], ['reminder', due, 'remindedAtMs']] as const) {
    const [first] = questions;
    if (!first) continue;
    await queueMessage(stores, call, { incidentId: first.incidentId, householdId: first.householdId, template, subjectId: first.id });
    for (const question of questions) await stores.ownerQuestions.save({ ...question, [stamp]: nowMs });
  }
}
