import { Problem } from '#contracts';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { Stores } from '../ports/work.js';

/** Code of the record that holds the found things of an incident. No household can have it: codes hold no space. */
export const UNKNOWN_OWNER_CODE = 'unknown owner';

/**
 * Nobody speaks for things whose owner is not known, and nobody gets them: no consent, no question, no message, no link, no hand-back, no release.
 * @throws Problem owner_unknown
 */
export function refuseUnknownOwner({ unknownOwner }: Pick<HouseholdRecord, 'unknownOwner'>): void {
  if (unknownOwner) throw ownerUnknown();
}

/** As `refuseUnknownOwner`, for the owner of an item. */
export async function refuseOwnerUnknown(stores: Stores, item: { householdId: string }): Promise<void> {
  if (await ownerIsUnknown(stores, item.householdId)) throw ownerUnknown();
}

export async function ownerIsUnknown(stores: Stores, householdId: string): Promise<boolean> {
  return (await stores.households.find(householdId))?.unknownOwner === true;
}

export function ownerUnknown(): Problem {
  return new Problem('owner_unknown', 'It was found, and its owner is not known yet: nobody can agree to anything for the owner, and it is given to nobody. Take down a claim with POST /v1/items/{itemId}/ownership-claims; once two people have accepted one, it is a thing of that household like any other.');
}
