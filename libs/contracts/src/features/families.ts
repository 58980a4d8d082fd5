import { z } from 'zod';
import { instant, optionalText, PageQuery, text, uuid } from '../primitives.js';
import { MoneyBody } from './households.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const KINDS = ['treat', 'freeze', 'refer', 'release', 'photograph', 'other'] as const;
const ANSWERS = ['yes', 'no', 'call-me'] as const;
const IF_NONE = ['hold', 'general-word'] as const;
const STATES = ['open', 'answered', 'expired', 'withdrawn'] as const;
const MATTERS = ['consent-withdrawn', 'question-expired', 'answer-late', 'call-asked', 'message-unclear', 'message-given-up', 'address-not-reached', 'partner-word', 'partner-not-told'] as const;
const TEMPLATES = ['taken-in', 'question', 'reminder', 'ready', 'handed-back', 'not-saved', 'let-go', 'uncollected'] as const;

export const OwnerQuestionParams = z.strictObject({ ownerQuestionId: uuid });
export const StatusLinkParams = z.strictObject({ statusLinkId: uuid });
export const FamilyMatterParams = z.strictObject({ familyMatterId: uuid });

const Words = z.strictObject({ en: text(600), es: text(600) });

export const AskOwner = z
  .strictObject({
    kind: z.enum(KINDS),
    words: Words.nullable().default(null),
    answers: z.array(z.enum(ANSWERS)).min(1).max(3).default(['yes', 'no', 'call-me']),
    amount: MoneyBody.nullable().default(null),
    ifNoneAnswers: z.enum(IF_NONE).default('hold'),
    deadlineAt: instant.nullable().default(null),
  })
  .meta({ id: 'AskOwner', examples: [{ kind: 'refer', words: null, answers: ['yes', 'no', 'call-me'], amount: { minor: 25_000, currency: 'USD' }, ifNoneAnswers: 'hold', deadlineAt: null }] });

export const OwnerQuestionBody = z
  .strictObject({
    id: z.string(),
    householdId: z.string(),
    itemId: z.string(),
    kind: z.enum(KINDS),
    askedBy: z.enum(['service', 'person']),
    words: z.strictObject({ en: z.string(), es: z.string() }).nullable(),
    answers: z.array(z.enum(ANSWERS)),
    amount: MoneyBody.nullable(),
    ifNoneAnswers: z.enum(IF_NONE),
    askedAt: z.string(),
    deadlineAt: z.string(),
    toldAt: z.string().nullable(),
    remindedAt: z.string().nullable(),
    state: z.enum(STATES),
    endedAt: z.string().nullable(),
    answer: z.enum(ANSWERS).nullable(),
    answeredBy: z.enum(['link', 'person']).nullable(),
    consentId: z.string().nullable(),
    lateAnswer: z.enum(ANSWERS).nullable(),
    lateAnsweredAt: z.string().nullable(),
  })
  .meta({
    id: 'OwnerQuestion',
    description: 'Something that only the owner of a thing can answer. `ifNoneAnswers` is never a way to let anything go: `hold` keeps it as it is, `general-word` follows what was said for all things of the household; either way a person decides.',
    examples: [{
      id, householdId: id, itemId: id, kind: 'treat', askedBy: 'service', words: null, answers: ['yes', 'no', 'call-me'], amount: null, ifNoneAnswers: 'hold', askedAt: '2026-05-09T07:10:00.000Z', deadlineAt: '2026-05-11T07:10:00.000Z',
      toldAt: null, remindedAt: null, state: 'open', endedAt: null, answer: null, answeredBy: null, consentId: null, lateAnswer: null, lateAnsweredAt: null,
    }],
  });

export const OwnerQuestionListQuery = PageQuery.extend({ state: z.enum(STATES).optional() });

export const RecordOwnerAnswer = z
  .strictObject({ answer: z.enum(ANSWERS), manner: z.enum(['spoken', 'written']), note: optionalText(500) })
  .meta({ id: 'RecordOwnerAnswer', examples: [{ answer: 'yes', manner: 'spoken', note: '' }] });

export const CreateStatusLink = z
  .strictObject({ forWhom: optionalText(100), validDays: z.int().min(1).max(30).default(14) })
  .meta({ id: 'CreateStatusLink', examples: [{ forWhom: 'the daughter', validDays: 14 }] });

export const StatusLinkBody = z
  .strictObject({
    id: z.string(),
    householdId: z.string(),
    forWhom: z.string(),
    createdAt: z.string(),
    expiresAt: z.string(),
    revokedAt: z.string().nullable(),
    pickUpCodeLocked: z.boolean(),
  })
  .meta({ id: 'StatusLink', description: 'A private link to the page of one household. Its secret is kept by nobody.', examples: [{ id, householdId: id, forWhom: 'the daughter', createdAt: '2026-05-09T07:10:00.000Z', expiresAt: '2026-05-23T07:10:00.000Z', revokedAt: null, pickUpCodeLocked: false }] });

export const NewStatusLinkBody = StatusLinkBody.extend({ path: z.string().nullable(), pickUpCode: z.string().nullable() }).meta({
  id: 'NewStatusLink',
  description: 'The path of the page and the pick-up code, told once: when the request is repeated both are null. Give the code by another way than the link.',
  examples: [{ id, householdId: id, forWhom: 'the daughter', createdAt: '2026-05-09T07:10:00.000Z', expiresAt: '2026-05-23T07:10:00.000Z', revokedAt: null, pickUpCodeLocked: false, path: '/s/AZi3oAAAcACAAAAAAAAAAc4sVJXw0a9u6c0f2y8m3pQ1r5t7v9xBzDfHjLnPrTvX', pickUpCode: 'K7RM-2WQX' }],
});

export const StatusLinkList = z.strictObject({ items: z.array(StatusLinkBody) });

export const SendFamilyMessage = z
  .strictObject({ template: z.enum(['taken-in', 'ready', 'handed-back', 'not-saved']), itemId: uuid.nullable().default(null) })
  .meta({ id: 'SendFamilyMessage', examples: [{ template: 'ready', itemId: null }] });

export const FamilyMessageBody = z
  .strictObject({
    id: z.string(),
    householdId: z.string(),
    template: z.enum(TEMPLATES),
    subjectId: z.string(),
    state: z.enum(['waiting', 'sending', 'sent', 'unclear', 'given-up']),
    tries: z.int(),
    queuedAt: z.string(),
    nextAt: z.string(),
    endedAt: z.string().nullable(),
    channel: z.enum(['email', 'sms']).nullable(),
    failure: z.string().nullable(),
    /** Told by itself; only to families who wish it. */
    automatic: z.boolean(),
  })
  .meta({
    id: 'FamilyMessage',
    description: 'A message to a family. `unclear`: the connection broke while it was sent, so it may have arrived; it is never sent again by itself. Where it goes is not shown.',
    examples: [{ id, householdId: id, template: 'ready', subjectId: id, state: 'waiting', tries: 0, queuedAt: '2026-05-09T07:10:00.000Z', nextAt: '2026-05-09T07:10:00.000Z', endedAt: null, channel: null, failure: null, automatic: false }],
  });

export const FamilyMessageList = z.strictObject({ items: z.array(FamilyMessageBody) });

export const FamilyMatterListQuery = PageQuery.extend({ settled: z.enum(['true', 'false']).default('false') });

export const FamilyMatterBody = z
  .strictObject({
    id: z.string(),
    householdId: z.string(),
    kind: z.enum(MATTERS),
    itemId: z.string().nullable(),
    questionId: z.string().nullable(),
    messageId: z.string().nullable(),
    consentId: z.string().nullable(),
    step: z.string().nullable(),
    advice: z.string(),
    openedAt: z.string(),
    settledAt: z.string().nullable(),
    settledBy: z.string().nullable(),
    settlement: z.string(),
  })
  .meta({
    id: 'FamilyMatter',
    description: 'Something about a family that a person must see to, with what a trained lead should do.',
    examples: [{ id, householdId: id, kind: 'question-expired', itemId: id, questionId: id, messageId: null, consentId: null, step: null, advice: 'The family has not answered by the deadline.', openedAt: '2026-05-11T07:10:00.000Z', settledAt: null, settledBy: null, settlement: '' }],
  });

export const SettleFamilyMatter = z.strictObject({ personId: uuid, settlement: text(1_000) }).meta({ id: 'SettleFamilyMatter', examples: [{ personId: id, settlement: 'Spoke with them at the desk; they want it kept as it is.' }] });

export const WithdrawOwnerQuestion = z.strictObject({}).meta({ id: 'WithdrawOwnerQuestion', examples: [{}] });
export const RevokeStatusLink = z.strictObject({}).meta({ id: 'RevokeStatusLink', examples: [{}] });

const WISHES = ['messages', 'no-messages'] as const;

export const RecordMessageWish = z
  .strictObject({ wish: z.enum(WISHES), manner: z.enum(['spoken', 'written']) })
  .meta({ id: 'RecordMessageWish', examples: [{ wish: 'messages', manner: 'spoken' }] });

export const MessageWishBody = z
  .strictObject({ id: z.string(), householdId: z.string(), wish: z.enum(WISHES), manner: z.enum(['spoken', 'written']), recordedAt: z.string() })
  .meta({ id: 'MessageWish', description: 'Whether a family wishes to be written to. Never edited: a change of mind is a newer one, and the newest counts.', examples: [{ id, householdId: id, wish: 'messages', manner: 'spoken', recordedAt: '2026-05-09T07:10:00.000Z' }] });

export const MessageWishList = z
  .strictObject({
    householdId: z.string(),
    inForce: z.enum(WISHES).nullable(),
    unreached: z.array(z.strictObject({ channel: z.enum(['email', 'sms']), refusedAt: z.string() })),
    items: z.array(MessageWishBody),
  })
  .meta({
    id: 'MessageWishes',
    description: 'What the family has said of being written to, newest first; `inForce` is null while it has said nothing, and then nothing is told by itself. `unreached` says where a server takes nothing, without the address.',
    examples: [{ householdId: id, inForce: 'messages', unreached: [{ channel: 'email', refusedAt: '2026-05-10T07:10:00.000Z' }], items: [{ id, householdId: id, wish: 'messages', manner: 'spoken', recordedAt: '2026-05-09T07:10:00.000Z' }] }],
  });
