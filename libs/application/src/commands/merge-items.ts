import { keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import { endUnclaimedPath } from '../claims/unclaimed.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { otherItem, twoItems } from '../custody/two-items.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** How one thing came to two records. */
export const MERGE_REASONS = ['tagged-twice', 'taken-in-twice', 'tag-lost-and-taken-in-again'] as const;

export interface MergeItemsInput {
  /** The record that ends. */
  itemId: string;
  /** The record that goes on. */
  into: string;
  reason: (typeof MERGE_REASONS)[number];
  /** The lead who looked and says that it is one thing. */
  personId: string;
}

export interface MergedItems {
  /** The record that goes on. */
  item: ItemRecord;
  /** The record that ended. */
  merged: ItemRecord;
}

/**
 * Joins two records of one and the same thing. One ends and names the other, which goes on and names the first with its last hash. Both
 * chains stay; the tag of the first leads to the thing from now on. What was found and done stays on the record on which it was entered.
 */
export async function mergeItems(stores: Stores, call: UseCaseCall, input: MergeItemsInput): Promise<MergedItems> {
  const { personId, reason } = input;
  const [away, into] = await twoItems(stores, input.itemId, input.into, '#/into');
  await refuseClosed(stores, away);
  await refuseNoLead(stores, { incidentId: away.incidentId, personId, may: 'join two records. Ask a lead to look at both tags.' });
  refuseTwoThings(away, into);
  await refuseClaimed(stores, away);
  const occurredAtMs = call.env.nowMs;
  const ended = await recordCustody(stores, call, away, { kind: 'merged-away', from: away.keeper, to: keeper.sameThing(into.id), refs: { mergedInto: into.id, reason, personId }, occurredAtMs });
  const { item } = await recordCustody(stores, call, into, { kind: 'merged-in', from: into.keeper, to: into.keeper, refs: { mergedFrom: away.id, otherHead: ended.event.hash, reason, personId }, occurredAtMs });
  await endUnclaimedPath(stores, call, away.id);
  await requestPlan(stores, call, away.incidentId, PLAN_REASONS.joined);
  return { item, merged: ended.item };
}

/** @throws Problem command_refused when both cannot be the same thing */
function refuseTwoThings(away: ItemRecord, into: ItemRecord): void {
  if (away.householdId !== into.householdId) throw refused('other_household', 'The two records belong to two households, and joining them would take the thing from the list of one. Find out with both whose it is first; if only the tags were confused, swap the identities.');
  if (away.count !== into.count) throw refused('counts_differ', `One record counts ${away.count} pieces and the other ${into.count}, so they are not the same. Count again; take what is too much out of the lot first.`);
}

/** Who claims a found thing claims the record that they were asked about. */
async function refuseClaimed(stores: Stores, away: ItemRecord): Promise<void> {
  const found = await stores.ownership.findByItem(away.id);
  // Who makes a claim locks the item as well, so that none comes in between.
  if (found === null || !(await stores.ownership.claims(found.id)).some(({ state }) => state === 'open')) return;
  throw new Problem('command_refused', 'A claim on the record that would end is open. Let it be decided first, or join the other record to this one.', { members: { reason: 'claimed' } });
}

function refused(reason: string, text: string): Problem {
  return otherItem(text, reason, '#/into');
}
