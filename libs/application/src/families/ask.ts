import type { Consents, Disposition } from '#care';
import type { UseCaseCall } from '../call.js';
import { ownerIsUnknown } from '../claims/unknown-owner.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Money, OwnerAnswer, OwnerQuestionRecord, QuestionKind } from '../ports/owner-question-store.js';
import type { Stores } from '../ports/work.js';

const HOUR_MS = 3_600_000;
/** How long the service waits for an answer, between the two: as long as the thing itself can wait. Our own calibration. */
export const QUESTION_LEAST_MS = 4 * HOUR_MS;
export const QUESTION_STANDS_MS = 48 * HOUR_MS;
/** The longest that a person may let a question stand; our own calibration. */
export const QUESTION_MOST_MS = 30 * 24 * HOUR_MS;
/** Real time in which further questions to a family gather before it is told of them once; our own calibration. */
export const QUESTIONS_GATHER_MS = 60_000;

const CONSENT_FOR = { treat: 'treat', 'hold-wet': 'treat', 'hold-frozen': 'freeze', refer: 'refer', release: 'release' } as const satisfies Record<Disposition, keyof Consents>;

export interface NewQuestion {
  kind: QuestionKind;
  askedBy: OwnerQuestionRecord['askedBy'];
  ownWords: Uint8Array | null;
  answers: OwnerAnswer[];
  amount: Money | null;
  ifNone: OwnerQuestionRecord['ifNone'];
  deadlineAtMs: number;
}

/** Puts a question to the owner of a locked or new item; null when the same is open already. */
export async function putQuestion(stores: Stores, call: UseCaseCall, item: ItemRecord, asked: NewQuestion & { id?: string }): Promise<OwnerQuestionRecord | null> {
  const question: OwnerQuestionRecord = {
    id: asked.id ?? call.env.newId(), incidentId: item.incidentId, householdId: item.householdId, itemId: item.id, kind: asked.kind, askedBy: asked.askedBy, askerId: call.context.principalId,
    ownWords: asked.ownWords, answers: asked.answers, amount: asked.amount, ifNone: asked.ifNone, askedAtMs: call.env.nowMs, deadlineAtMs: asked.deadlineAtMs,
    toldAtMs: null, remindedAtMs: null, state: 'open', endedAtMs: null, answer: null, answeredBy: null, answererId: null, consentId: null, lateAnswer: null, lateAnsweredAtMs: null, version: 1,
  };
  if (!(await stores.ownerQuestions.insert(question))) return null;
  await lookAtFamily(stores, call, question, QUESTIONS_GATHER_MS);
  return question;
}

/** Lets the worker look at the family's questions soon: one look for all that is asked meanwhile. */
export async function lookAtFamily(stores: Stores, call: UseCaseCall, { incidentId, householdId }: { incidentId: string; householdId: string }, delayMs: number): Promise<void> {
  await stores.outbox.appendUnlessWaiting({ id: call.env.newId(), incidentId, kind: 'family.look', subjectId: householdId, traceparent: call.context.traceparent }, delayMs);
}

/**
 * The service asks by itself where the way of a thing lacks the owner's word. A no is not asked about again, and whether something may be let go is
 * asked by nobody but a person.
 */
export async function askMissing(stores: Stores, call: UseCaseCall, item: ItemRecord, disposition: Disposition, consents: Consents): Promise<void> {
  const kind = CONSENT_FOR[disposition];
  if (kind === 'release' || consents[kind] !== null) return;
  // Nobody is there to answer.
  if (await ownerIsUnknown(stores, item.householdId)) return;
  const standsMs = Math.min(Math.max((item.startByMs ?? Number.POSITIVE_INFINITY) - call.env.nowMs, QUESTION_LEAST_MS), QUESTION_STANDS_MS);
  await putQuestion(stores, call, item, { kind, askedBy: 'service', ownWords: null, answers: ['yes', 'no', 'call-me'], amount: null, ifNone: 'hold', deadlineAtMs: call.env.nowMs + standsMs });
}
