import type { Consents, MaterialClass, Significance, WaterKind } from '#care';
import { planningWeight } from '#care';
import type { StandardItemKind } from '#climate';
import { NO_MATTERS, beforeIntake, decide, isRefusal, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { retriage } from '../care/retriage.js';
import { noteNews } from '../families/news.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { IncidentFacts } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';
import { checkedTag, deedOf, tagTaken } from '../tags/checked-tag.js';
import { firstAssessment } from './first-assessment.js';
import { extentOf } from './size.js';

/** What is told of one thing or lot when it comes, at the doorway or in a file. */
export interface Told {
  siteId: string;
  /** As typed or scanned; checked here. */
  tag: string;
  count: number;
  lot: boolean;
  description: string;
  familyWords: string;
  photographRef: string;
  /** The day of its photograph, `2026-05-08`; slips have no column for it. */
  photographedOn?: string | null;
  materialClass: MaterialClass;
  sizeClass: StandardItemKind;
  significance: Significance;
  wettedAtMs: number | null;
  /** Where it is put down; null for the dirty waiting area of the site. */
  to: Keeper | null;
}

/** What was told, with everything looked up that it names. */
export interface Arrival extends Told {
  /** Open, and held so (`incidentForIntake`). */
  incident: IncidentFacts;
  household: HouseholdRecord;
  arrivedAtMs: number;
  water: WaterKind;
  consents: Consents;
  /** Further references for its first event. */
  refs?: Record<string, string>;
  /** It was found; nothing else is taken in for the record of unknown owners. */
  found?: boolean;
}

/**
 * Takes in one item: ties its tag, writes the item with its first custody event, and triages it on the cautious side.
 * The one way in, for the doorway and for files. @throws Problem tag_invalid, tag_unknown, tag_taken, reference_unknown
 */
export async function takeInOne(stores: Stores, call: UseCaseCall, arrival: Arrival): Promise<ItemRecord> {
  if (arrival.found !== true) refuseUnknownOwner(arrival.household);
  const tagCode = await checkedTag(stores, arrival.tag, arrival.incident.id);
  const to = arrival.to ?? (await dirtyHolding(stores, arrival.siteId));
  const itemId = call.env.newId();
  const { networkId } = arrival.household;
  const event = decide(
    beforeIntake(networkId, itemId),
    { commandId: call.env.newId(), kind: 'taken-in', from: null, to, actorId: call.context.principalId, occurredAtMs: arrival.arrivedAtMs, refs: { ...arrival.refs, householdId: arrival.household.id, tag: tagCode } },
    call.env.nowMs,
  );
  if (isRefusal(event)) throw new Problem('command_refused', event.text, { members: { reason: event.code } });
  const item: ItemRecord = {
    networkId, incidentId: arrival.incident.id, id: itemId, householdId: arrival.household.id, siteId: arrival.siteId, tagCode,
    kind: arrival.lot ? 'lot' : 'item', count: arrival.count, splitFromId: null,
    description: arrival.description, familyWords: arrival.familyWords, photographRef: arrival.photographRef, photographedOn: arrival.photographedOn ?? null,
    materialClass: arrival.materialClass, sizeClass: arrival.sizeClass, ...extentOf(arrival.sizeClass, arrival.count),
    significance: arrival.significance, arrivedAtMs: arrival.arrivedAtMs, wettedAtMs: arrival.wettedAtMs,
    seq: event.seq, headHash: event.hash, keeper: event.to, stage: event.stage, matters: NO_MATTERS, lastSeenAtMs: call.env.nowMs,
    urgency: null, startByMs: null, disposition: null,
    planningWeight: planningWeight({ significance: arrival.significance, onlyCopy: null, count: arrival.count }),
    stabilisedAtMs: null, nextStep: null, routePosition: 0, waitingForOwner: false,
    version: 1, createdAtMs: call.env.nowMs, updatedAtMs: call.env.nowMs,
  };
  await stores.items.insert(item);
  await stores.custody.appendFirst([event], arrival.incident.id);
  if (!(await stores.tags.tie(tagCode, { itemId }, deedOf(call)))) throw tagTaken(tagCode);
  const assessment = firstAssessment({ ...arrival, consents: arrival.consents });
  await noteNews(stores, call, { incidentId: item.incidentId, householdId: item.householdId, kind: 'taken-in', subjectId: item.id });
  return retriage(stores, call, item, assessment, { origin: 'person', assessedAtMs: arrival.arrivedAtMs });
}

async function dirtyHolding(stores: Stores, siteId: string): Promise<Keeper> {
  const area = (await stores.places.holdingArea(siteId, 'dirty')) ?? (await stores.places.holdingArea(siteId, 'clean'));
  if (!area) throw new Problem('reference_unknown', 'The site has no waiting area. Name the place where the item is put down.', { errors: [{ detail: 'is needed here', code: 'reference_unknown', pointer: '#/to' }] });
  return area.keeper;
}
