import type { UseCaseCall } from '../call.js';
import { recordTruePlace, type ItemAndEvent, type TruePlace } from '../custody/true-place.js';
import type { Stores } from '../ports/work.js';

/** Settles where a thing is about which two reports disagreed: a person has it in front of them. */
export function settleLocation(stores: Stores, call: UseCaseCall, input: TruePlace): Promise<ItemAndEvent> {
  return recordTruePlace(stores, call, 'location-settled', input);
}

/** Records that a missing thing was found, by a person who has it. */
export function recordFinding(stores: Stores, call: UseCaseCall, input: TruePlace): Promise<ItemAndEvent> {
  return recordTruePlace(stores, call, 'found-again', input);
}
