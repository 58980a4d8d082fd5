import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { queueMessage } from '../families/queue-message.js';
import type { FamilyMessageRecord } from '../ports/family-message-store.js';
import type { Stores } from '../ports/work.js';

export interface SendFamilyMessageInput {
  householdId: string;
  template: 'taken-in' | 'ready' | 'handed-back' | 'not-saved';
  itemId: string | null;
}

/** A person lets a family be told something by one of the templates, once about one thing. @throws Problem already_exists when it was told that */
export async function sendFamilyMessage(stores: Stores, call: UseCaseCall, input: SendFamilyMessageInput): Promise<FamilyMessageRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  if (input.itemId !== null) {
    const item = await stores.items.find(input.itemId);
    if (!item || item.householdId !== household.id) throw new Problem('reference_unknown', 'The item is not one of this household.', { errors: [{ detail: 'is not an item of this household', code: 'reference_unknown', pointer: '#/itemId' }] });
  }
  if ((await stores.familyNews.wishInForce(household.id)) === 'no-messages') throw new Problem('command_refused', 'The family does not wish to be written to. Tell them in person, or record it when they wish otherwise. Nothing is sent.', { errors: [{ detail: 'wishes no messages', code: 'no_messages', pointer: '' }] });
  const message = await queueMessage(stores, call, { incidentId: household.incidentId, householdId: household.id, template: input.template, subjectId: input.itemId ?? household.id });
  if (message === null) throw new Problem('already_exists', 'The family was told of this before, or the message waits to be sent. Read the messages of the household.');
  return message;
}
