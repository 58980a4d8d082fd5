import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { UNKNOWN_OWNER_CODE } from '../claims/unknown-owner.js';
import { finderField, placeField } from '../claims/views.js';
import { incidentForIntake } from '../custody/open-incident.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { FoundItemRecord } from '../ports/ownership-store.js';
import type { Stores } from '../ports/work.js';
import { writeMark, type MarkInput } from './record-owner-mark.js';
import { takeInItem, type TakeInItemInput } from './take-in-item.js';

export interface TakeInFoundItemInput extends Omit<TakeInItemInput, 'householdId' | 'familyWords' | 'said' | 'refs' | 'found'> {
  foundOn: string;
  /** Where, in words. */
  foundPlace: string;
  /** Who found or brought it, and how to reach them; blank where nobody said so. */
  finder: string;
  personId: string;
  marks: MarkInput[];
}

export interface TakenInFoundItem {
  found: FoundItemRecord;
  item: ItemRecord;
  marks: number;
}

const DAY_MS = 86_400_000;

/** Takes in something that nobody says is theirs: it is kept, cared for and followed like anything else, for an owner who is not known yet. */
export async function takeInFoundItem(stores: Stores, call: UseCaseCall, input: TakeInFoundItemInput): Promise<TakenInFoundItem> {
  const { foundOn, foundPlace, finder, personId, marks, ...told } = input;
  const incident = await incidentForIntake(stores, input.incidentId);
  await personOf(stores, incident.id, personId);
  refuseAhead(call, foundOn);
  const household = await unknownOwnerOf(stores, call, incident.id);
  const item = await takeInItem(stores, call, { ...told, familyWords: '', householdId: household.id, found: true });
  const id = call.env.newId();
  const found: FoundItemRecord = {
    id, incidentId: incident.id, itemId: item.id, foundOn, placeSealed: await stores.personal.seal(null, placeField(id), foundPlace), finderSealed: finder === '' ? null : await stores.personal.seal(null, finderField(id), finder),
    recordedBy: personId, recordedAtMs: call.env.nowMs, grantedClaimId: null,
  };
  await stores.ownership.insertFound(found);
  for (const mark of marks) await writeMark(stores, call, found, mark, personId);
  return { found, item, marks: marks.length };
}

/** The record of the incident to which found things belong; made with the first of them. */
function unknownOwnerOf(stores: Stores, { context, env }: UseCaseCall, incidentId: string): Promise<HouseholdRecord> {
  return stores.households.unknownOwnerOf({ networkId: context.networkId, incidentId, id: env.newId(), code: UNKNOWN_OWNER_CODE, language: 'en', unknownOwner: true, version: 1, createdAtMs: env.nowMs, updatedAtMs: env.nowMs });
}

/** A day may begin earlier elsewhere than in UTC. */
function refuseAhead(call: UseCaseCall, foundOn: string): void {
  if (Date.parse(`${foundOn}T00:00:00Z`) <= call.env.nowMs + DAY_MS) return;
  throw new Problem('command_refused', 'The day on which it was found lies ahead. Check the date.', { errors: [{ detail: 'lies after today', code: 'time_ahead', pointer: '#/foundOn' }] });
}
