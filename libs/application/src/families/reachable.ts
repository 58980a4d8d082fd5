import type { MessageChannel } from '../ports/family-message-store.js';
import { personalField } from '../ports/personal-store.js';
import type { Stores } from '../ports/work.js';

export const unreachedField = (id: string): string => personalField('unreached_address.address', id);

/** Ways on which a server has said for good that it takes nothing, as `email:somebody@...`. */
export async function unreachedWays(stores: Stores, householdId: string): Promise<Set<string>> {
  const records = await stores.familyNews.unreached(householdId);
  const opened = await stores.personal.openAll(records.map(({ id, address }) => ({ householdId, field: unreachedField(id), sealed: address })));
  return new Set(records.flatMap(({ channel }, index) => (opened[index] ? [wayOf(channel, opened[index])] : [])));
}

export const wayOf = (channel: MessageChannel, address: string): string => `${channel}:${address.trim().toLowerCase()}`;

/** Whether some address of the household is not known to be dead. */
export async function reachable(stores: Stores, householdId: string): Promise<boolean> {
  const contact = await stores.households.contact(householdId);
  if (contact === null) return false;
  const dead = await unreachedWays(stores, householdId);
  const ways: [MessageChannel, string][] = [['email', contact.email], ['sms', contact.phone]];
  return ways.some(([channel, address]) => address.trim() !== '' && !dead.has(wayOf(channel, address)));
}
