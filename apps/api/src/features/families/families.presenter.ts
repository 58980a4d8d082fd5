import type { z } from 'zod';
import { CODE_MISSES, type FamilyMessageRecord, type LinkView, type MatterView, type MessageWishRecord, type MessageWishView, type QuestionView } from '#application';
import { render, type Language } from '#care';
import type { FamilyMatterBody, FamilyMessageBody, MessageWishBody, MessageWishList, NewStatusLinkBody, OwnerQuestionBody, StatusLinkBody } from '#contracts';
import { iso } from '../../presenters/time.js';

const isoOrNull = (ms: number | null): string | null => (ms === null ? null : iso(ms));

export function presentQuestion({ question, words }: QuestionView): z.output<typeof OwnerQuestionBody> {
  const { id, householdId, itemId, kind, askedBy, answers, amount, state, answer, answeredBy, consentId, lateAnswer } = question;
  return {
    id, householdId, itemId, kind, askedBy, words, answers, amount, ifNoneAnswers: question.ifNone, askedAt: iso(question.askedAtMs), deadlineAt: iso(question.deadlineAtMs), toldAt: isoOrNull(question.toldAtMs),
    remindedAt: isoOrNull(question.remindedAtMs), state, endedAt: isoOrNull(question.endedAtMs), answer, answeredBy, consentId, lateAnswer, lateAnsweredAt: isoOrNull(question.lateAnsweredAtMs),
  };
}

export function presentLink({ link, forWhom }: LinkView): z.output<typeof StatusLinkBody> {
  return {
    id: link.id, householdId: link.householdId, forWhom, createdAt: iso(link.createdAtMs), expiresAt: iso(link.expiresAtMs), revokedAt: isoOrNull(link.revokedAtMs), pickUpCodeLocked: link.codeMisses >= CODE_MISSES,
  };
}

/** The answer that is stored for repeats: without path and code. */
export function presentNewLink(view: LinkView): z.output<typeof NewStatusLinkBody> {
  return { ...presentLink(view), path: null, pickUpCode: null };
}

export function presentMessage(message: FamilyMessageRecord): z.output<typeof FamilyMessageBody> {
  const { id, householdId, template, subjectId, state, tries, channel, failure, automatic } = message;
  return { id, householdId, template, subjectId, state, tries, queuedAt: iso(message.queuedAtMs), nextAt: iso(message.nextAtMs), endedAt: isoOrNull(message.endedAtMs), channel, failure, automatic };
}

export function presentFamilyMatter({ matter, settlement }: MatterView, language: Language): z.output<typeof FamilyMatterBody> {
  const { id, householdId, kind, itemId, questionId, messageId, consentId, step, settledBy } = matter;
  return { id, householdId, kind, itemId, questionId, messageId, consentId, step, advice: render(matter.advice, language), openedAt: iso(matter.openedAtMs), settledAt: isoOrNull(matter.settledAtMs), settledBy, settlement };
}

export function presentWish({ id, householdId, wish, manner, recordedAtMs }: MessageWishRecord): z.output<typeof MessageWishBody> {
  return { id, householdId, wish, manner, recordedAt: iso(recordedAtMs) };
}

export function presentWishes({ householdId, inForce, unreached, wishes }: MessageWishView): z.output<typeof MessageWishList> {
  return { householdId, inForce, unreached: unreached.map(({ channel, refusedAtMs }) => ({ channel, refusedAt: iso(refusedAtMs) })), items: wishes.map(presentWish) };
}
