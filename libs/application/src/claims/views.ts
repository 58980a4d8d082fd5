import type { Message } from '#care';
import { notFound, Problem } from '#contracts';
import type { FoundItemRecord, OwnershipClaimRecord } from '../ports/ownership-store.js';
import { personalField } from '../ports/personal-store.js';
import type { Stores } from '../ports/work.js';
import type { ActorFault } from './judge-claim.js';
import { claimWords } from './claim-words.js';

export interface ClaimView {
  claim: OwnershipClaimRecord;
  itemId: string;
  /** So far; at most two. */
  acceptances: number;
  toTell: Message;
}

export async function claimView(stores: Stores, claim: OwnershipClaimRecord, itemId: string): Promise<ClaimView> {
  const acceptances = (await stores.ownership.decisions(claim.id)).filter(({ accepts }) => accepts).length;
  return { claim, itemId, acceptances, toTell: claimWords(claim) };
}

export const placeField = (foundItemId: string): string => personalField('found_item.place', foundItemId);
export const finderField = (foundItemId: string): string => personalField('found_item.finder', foundItemId);
export const questionField = (markId: string): string => personalField('owner_mark.question', markId);
export const answerField = (markId: string): string => personalField('owner_mark.answer', markId);
export const answersField = (claimId: string): string => personalField('ownership_claim.answers', claimId);

/** What a household says of a thing that it takes for its own. */
export interface ClaimAnswers {
  statement: string;
  answers: { markId: string; answer: string }[];
}

const WHY: Record<ActorFault, string> = {
  'knows-the-answers': 'This person or key wrote down or has seen what only the owner can know. Let somebody else, with another key, take the answers.',
  'took-the-answers': 'This person or key took down the answers of this claim. Two others, each with a key of their own, compare and decide.',
  'decided-before': 'This person has decided about the claim already. The second decision is that of another person.',
  'key-decided-before': 'A decision about the claim was made with this key already. The second person decides with a key of their own.',
  'has-not-looked': 'Look at both sides first, as this person: GET /v1/ownership-claims/{ownershipClaimId}/comparison.',
};

/** `pointer` into the body, or the name of a parameter. @throws Problem claim_person */
export function refuseActor(fault: ActorFault | null, pointer: string): void {
  if (fault === null) return;
  const where = pointer.startsWith('#') ? { pointer } : { parameter: pointer };
  throw new Problem('claim_person', WHY[fault], { errors: [{ detail: WHY[fault], code: fault, ...where }], members: { reason: fault } });
}

/** The found thing of an item whose owner is not known, locked. @throws Problem not_found, owner_known */
export async function lockUnowned(stores: Stores, itemId: string): Promise<FoundItemRecord> {
  const item = await stores.items.find(itemId);
  if (!item) throw notFound('item');
  const found = await stores.ownership.findByItem(itemId);
  const locked = found === null ? null : await stores.ownership.lockFound(found.id);
  if (locked !== null && locked.grantedClaimId === null) return locked;
  const household = await stores.households.find(item.householdId);
  if (household?.unknownOwner !== true) throw new Problem('owner_known', 'The owner of this item is on record. If the family says that it is theirs, let a lead look at the record with them.');
  throw new Problem('command_refused', 'This item is a part that was taken out of a found lot, and goes with the lot. Use the lot from which it came (`splitFromId`).', { members: { splitFromId: item.splitFromId } });
}
