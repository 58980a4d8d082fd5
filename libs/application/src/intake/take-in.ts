import type { Consents, MaterialClass, Significance, WaterKind } from '#care';
import { planningWeight } from '#care';
import type { StandardItemKind } from '#climate';
import { beforeIntake, decide, formatTagCode, isRefusal, isTagFault, nearestPlausible, parseTagCode, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { retriage } from '../care/retriage.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { IncidentFacts } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';
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
}

/**
 * Takes in one item: ties its tag, writes the item with its first custody event, and triages it on the cautious side.
 * The one way in, for the doorway and for files. @throws Problem tag_invalid, tag_unknown, tag_taken, reference_unknown
 */
export async function takeInOne(stores: Stores, call: UseCaseCall, arrival: Arrival): Promise<ItemRecord> {
  const tagCode = await checkedTag(stores, arrival.tag, arrival.incident.id);
  const to = arrival.to ?? (await dirtyHolding(stores, arrival.siteId));
  const itemId = call.env.newId();
  const { networkId } = arrival.household;
  const event = decide(
    beforeIntake(networkId, itemId),
    { commandId: call.env.newId(), kind: 'taken-in', from: null, to, actorId: call.context.principalId, occurredAtMs: arrival.arrivedAtMs, refs: { householdId: arrival.household.id, tag: tagCode } },
    call.env.nowMs,
  );
  if (isRefusal(event)) throw new Problem('command_refused', event.text, { members: { reason: event.code } });
  const item: ItemRecord = {
    networkId, incidentId: arrival.incident.id, id: itemId, householdId: arrival.household.id, siteId: arrival.siteId, tagCode,
    kind: arrival.lot ? 'lot' : 'item', count: arrival.count, splitFromId: null,
    description: arrival.description, familyWords: arrival.familyWords, photographRef: arrival.photographRef,
    materialClass: arrival.materialClass, sizeClass: arrival.sizeClass, ...extentOf(arrival.sizeClass, arrival.count),
    significance: arrival.significance, arrivedAtMs: arrival.arrivedAtMs, wettedAtMs: arrival.wettedAtMs,
    seq: event.seq, headHash: event.hash, keeper: event.to, stage: event.stage,
    urgency: null, startByMs: null, disposition: null,
    planningWeight: planningWeight({ significance: arrival.significance, onlyCopy: null, count: arrival.count }),
    stabilisedAtMs: null, nextStep: null, routePosition: 0, waitingForOwner: false,
    version: 1, createdAtMs: call.env.nowMs, updatedAtMs: call.env.nowMs,
  };
  await stores.items.insert(item);
  await stores.custody.appendFirst([event], arrival.incident.id);
  if (!(await stores.tags.tie(tagCode, { itemId }, call.env.nowMs))) throw tagTaken(tagCode);
  const assessment = firstAssessment({ ...arrival, consents: arrival.consents });
  return retriage(stores, call, item, assessment, { origin: 'person', assessedAtMs: arrival.arrivedAtMs });
}

/** The tag as a code, reserved for this incident and free; else a problem that offers the nearest plausible tags. */
export async function checkedTag(stores: Stores, typed: string, incidentId: string, kind: 'item' | 'container' = 'item'): Promise<string> {
  const parsed = parseTagCode(typed);
  if (isTagFault(parsed)) throw await tagInvalid(stores, typed, parsed.text, incidentId);
  const tag = await stores.tags.lock(parsed.code);
  if (!tag || tag.incidentId !== incidentId) throw new Problem('tag_unknown', 'No one reserved this tag for the incident. Reserve a block of tags first, or look at the tag again.', { members: { nearest: await nearestReserved(stores, typed, incidentId) } });
  if (tag.kind !== kind) throw new Problem('tag_invalid', `${formatTagCode(parsed.code)} is a tag for a ${tag.kind}, not for an ${kind}.`);
  if (tag.itemId !== null || tag.containerId !== null) throw tagTaken(parsed.code);
  return parsed.code;
}

export async function tagInvalid(stores: Stores, typed: string, text: string, incidentId: string | null): Promise<Problem> {
  return new Problem('tag_invalid', text, { errors: [{ detail: text, code: 'tag_invalid', pointer: '#/tag' }], members: { nearest: await nearestReserved(stores, typed, incidentId) } });
}

function tagTaken(code: string): Problem {
  return new Problem('tag_taken', `The tag ${formatTagCode(code)} is tied to another thing already. Look it up to see to which one; use a fresh tag here.`);
}

/**
 * Reserved tags that differ from what was typed by one character or one swap. At most 5, most plausible first. Only those of
 * the incident: a tag of another one cannot be tied here. Null, where a request names no incident, for all of the network.
 */
export async function nearestReserved(stores: Stores, typed: string, incidentId: string | null): Promise<string[]> {
  const candidates = nearestPlausible(typed, null);
  if (candidates.length === 0) return [];
  const known = new Set((await stores.tags.known(candidates, incidentId)).map((tag) => tag.code));
  return candidates.filter((code) => known.has(code)).slice(0, 5).map(formatTagCode);
}

async function dirtyHolding(stores: Stores, siteId: string): Promise<Keeper> {
  const area = (await stores.places.holdingArea(siteId, 'dirty')) ?? (await stores.places.holdingArea(siteId, 'clean'));
  if (!area) throw new Problem('reference_unknown', 'The site has no waiting area. Name the place where the item is put down.', { errors: [{ detail: 'is needed here', code: 'reference_unknown', pointer: '#/to' }] });
  return area.keeper;
}
