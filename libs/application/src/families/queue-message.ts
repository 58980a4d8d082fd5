import type { UseCaseCall } from '../call.js';
import type { FamilyMessageRecord, MessageTemplate } from '../ports/family-message-store.js';
import type { Stores } from '../ports/work.js';

export interface NewMessage {
  incidentId: string;
  householdId: string;
  template: MessageTemplate;
  /** What it is about; a family is told of it once by this template. */
  subjectId: string;
  /** Told by itself; left out where a person or a question wants it. */
  automatic?: boolean;
}

/**
 * Puts a message to a family in the queue, in the transaction of what it tells of. Null when the family was told of the same already. Only ids are
 * written: what it says, where it goes and whether it may go now is found out when it is sent.
 */
export async function queueMessage(stores: Stores, call: UseCaseCall, { incidentId, householdId, template, subjectId, automatic = false }: NewMessage): Promise<FamilyMessageRecord | null> {
  const message: FamilyMessageRecord = {
    id: call.env.newId(), incidentId, householdId, template, subjectId, state: 'waiting', tries: 0, queuedAtMs: call.env.nowMs, nextAtMs: call.env.nowMs,
    attemptAtMs: null, endedAtMs: null, channel: null, language: null, recipient: null, linkId: null, failure: null, automatic,
  };
  if (!(await stores.familyMessages.insert(message))) return null;
  await stores.outbox.append({ id: call.env.newId(), incidentId, kind: 'family.message', subjectId: message.id, traceparent: call.context.traceparent });
  return message;
}
