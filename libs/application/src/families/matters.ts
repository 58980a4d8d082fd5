import { say, type Message, type StepKind } from '#care';
import type { UseCaseCall } from '../call.js';
import type { FamilyMatterKind, FamilyMatterRecord } from '../ports/family-matter-store.js';
import type { Stores } from '../ports/work.js';

/** What to do about what needs no words of its own. */
export const MATTER_ADVICE = {
  'question-expired': say('The family has not answered by the deadline. Call or meet them if you can, and ask again. Until somebody decides, the thing is kept as it is; nothing is let go without their word.'),
  'answer-late': say('An answer came after the deadline. What was done meanwhile stays done. Read the answer, speak with the family if it no longer fits, and record what they want from now on.'),
  'call-asked': say('The family would rather speak with somebody before they answer. Call or meet them, and record what they say.'),
  'message-unclear': say('The connection broke while this message was being sent, so it may or may not have arrived. It is not sent again by itself. Ask the family whether they have it, or tell them in person.'),
  'message-given-up': say('This message could not be delivered and is not tried again. Check the address or number with the family, or tell them in person.'),
  'address-not-reached': say('The mail server says that it takes nothing for this address. No message goes there by itself any more. Ask the family for another address, or tell them in person.'),
} as const satisfies Partial<Record<FamilyMatterKind, Message>>;

export interface NewMatter {
  incidentId: string;
  householdId: string;
  kind: FamilyMatterKind;
  itemId?: string;
  questionId?: string;
  messageId?: string;
  consentId?: string;
  step?: StepKind;
  advice: Message;
}

/** Opens something that a person must see to. */
export async function openMatter(stores: Stores, call: UseCaseCall, made: NewMatter): Promise<FamilyMatterRecord> {
  const matter: FamilyMatterRecord = {
    id: call.env.newId(), incidentId: made.incidentId, householdId: made.householdId, kind: made.kind,
    itemId: made.itemId ?? null, questionId: made.questionId ?? null, messageId: made.messageId ?? null, consentId: made.consentId ?? null, step: made.step ?? null,
    advice: made.advice, openedAtMs: call.env.nowMs, settledAtMs: null, settledBy: null, settlement: null,
  };
  await stores.familyMatters.insert(matter);
  return matter;
}
