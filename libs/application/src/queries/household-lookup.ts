import { say, type Message } from '#care';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { CONTACT_WORD_KINDS, contactWords, type ContactWordKind } from '../households/contact-words.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { Stores } from '../ports/work.js';

/** Households shown; a name that more of them bear is no name to find one by. Our own calibration. */
const FOUND_MOST = 20;

export const HOW_MATCHED = say('Whole values only: the whole name as it was registered (accents, capitals and punctuation do not count, the order of its words does), all digits of the phone number, the whole e-mail address. What only resembles them is not found. A match is no proof of who somebody is: check it before you tell anything.');

export interface FoundHousehold {
  household: HouseholdRecord;
  /** What of that which was asked for is the same. */
  matched: ContactWordKind[];
}

export interface HouseholdLookup {
  matches: FoundHousehold[];
  more: boolean;
  how: Message;
}

/** Households of an incident whose contact has this name, number or address; those that match in most first. */
export async function lookUpHouseholds(stores: Stores, _call: UseCaseCall, input: { incidentId: string } & Partial<Record<ContactWordKind, string>>): Promise<HouseholdLookup> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  const words = contactWords(input);
  refuseUnfindable(input, words.map(({ kind }) => kind));
  const found = await stores.households.findByWords(input.incidentId, words, FOUND_MOST + 1);
  return { matches: found.slice(0, FOUND_MOST), more: found.length > FOUND_MOST, how: HOW_MATCHED };
}

/** What was given and can find nothing would be taken for "nobody has it". */
function refuseUnfindable(input: Partial<Record<ContactWordKind, string>>, usable: readonly ContactWordKind[]): void {
  const unusable = CONTACT_WORD_KINDS.filter((kind) => (input[kind] ?? '') !== '' && !usable.includes(kind));
  if (unusable.length === 0 && usable.length > 0) return;
  const DETAIL: Record<ContactWordKind, string> = { name: 'has no letter or digit', phone: 'has fewer than 6 digits', email: 'is no whole address' };
  throw new Problem('command_refused', unusable.length > 0 ? 'Some of it finds nobody as it is written; see errors. Leave it out or write it whole.' : 'Give a whole name, a phone number or an e-mail address.', {
    errors: unusable.length > 0 ? unusable.map((kind) => ({ detail: DETAIL[kind], code: 'not_findable', pointer: `#/${kind}` })) : [{ detail: 'is needed, or `phone`, or `email`', code: 'not_findable', pointer: '#/name' }],
  });
}
