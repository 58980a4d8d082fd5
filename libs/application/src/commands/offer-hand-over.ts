import { REF, sameKeeper, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { claimRoom } from '../custody/capacity.js';
import { recordContainer, refuseContainerAt } from '../custody/containers.js';
import { openIncidentOf } from '../custody/open-incident.js';
import { recordCustody, type Passing } from '../custody/record-custody.js';
import { agreementToRefer } from '../custody/refer-out.js';
import { aboutThing, distinct, lockThings, thingsOfTags, type LockedThings, type NamedThing } from '../custody/things.js';
import type { HandOverLine, HandOverRecord } from '../ports/hand-over-store.js';
import type { Stores } from '../ports/work.js';

const HOUR_MS = 3_600_000;
/** How long an offer stands when nobody says: our own calibration, a shift and the way home. */
export const HAND_OVER_STANDS_MS = 24 * HOUR_MS;
/** The longest that an offer may stand; our own calibration. */
export const HAND_OVER_MOST_MS = 14 * 24 * HOUR_MS;
/** Things of one hand-over at most; they pass in one transaction. */
export const HAND_OVER_THINGS = 200;

export interface OfferHandOverInput {
  incidentId: string;
  /** Who must hold all of it now; what the first thing says when null. */
  from: Keeper | null;
  to: Keeper;
  itemIds: string[];
  containerIds: string[];
  tags: string[];
  /** The giver. */
  personId: string;
  expiresAtMs: number | null;
  reason: string;
}

/**
 * Offers things to a receiver. The giver stays their keeper until the receiver accepts; meanwhile nothing else moves them. All are
 * offered or none.
 */
export async function offerHandOver(stores: Stores, call: UseCaseCall, input: OfferHandOverInput): Promise<HandOverRecord> {
  const { incidentId, to } = input;
  await openIncidentOf(stores, incidentId);
  await personOf(stores, incidentId, input.personId);
  const expiresAtMs = expiryOf(call, input.expiresAtMs);
  await refuseReceiver(stores, input);
  const things = await namedThings(stores, input);
  const locked = await lockThings(stores, incidentId, things);
  const lines: HandOverLine[] = [];
  for (const [index, thing] of things.entries()) lines.push(await lineOf(stores, thing, index + 1, locked));
  const from = oneGiver(input, things, locked);
  const handOver: HandOverRecord = {
    id: call.env.newId(), incidentId, from, to, giverId: input.personId, reason: input.reason, state: 'open', offeredAtMs: call.env.nowMs, expiresAtMs,
    endedAtMs: null, endedBy: null, endedNote: '', version: 1, things: lines.length, lines,
  };
  for (const [index, thing] of things.entries()) await offerThing(stores, call, handOver, { ...thing, tagCode: lines[index]?.tagCode ?? '' }, locked);
  await stores.handOvers.insert(handOver);
  await stores.outbox.appendAhead({ id: call.env.newId(), incidentId, kind: 'hand_over.due', subjectId: handOver.id, traceparent: call.context.traceparent }, expiresAtMs - call.env.nowMs);
  return handOver;
}

function expiryOf(call: UseCaseCall, askedMs: number | null): number {
  const atMs = askedMs ?? call.env.nowMs + HAND_OVER_STANDS_MS;
  if (atMs > call.env.nowMs && atMs <= call.env.nowMs + HAND_OVER_MOST_MS) return atMs;
  throw new Problem('command_refused', `An offer stands for at most ${HAND_OVER_MOST_MS / (24 * HOUR_MS)} days from now. Name a time after ${new Date(call.env.nowMs).toISOString()}, or leave it out for ${HAND_OVER_STANDS_MS / HOUR_MS} hours.`, {
    errors: [{ detail: 'is not within the time that an offer may stand', code: 'expiry_not_allowed', pointer: '#/expiresAt' }],
  });
}

/** The receiver must be somebody of the incident who can answer. */
async function refuseReceiver(stores: Stores, { incidentId, to, personId }: OfferHandOverInput): Promise<void> {
  const nothing = { incidentId, keeper: null, areaDm2: 0, volumeL: 0 };
  // Says in its own words what is not there, and that partner networks cannot receive yet.
  if (!(await stores.places.find(incidentId, to))) await claimRoom(stores, nothing, to);
  const refuse = (detail: string, text: string) => new Problem('command_refused', text, { errors: [{ detail, code: 'receiver_not_offered', pointer: '#/to' }] });
  if (to.kind === 'container') throw refuse('cannot answer', 'A container cannot accept anything. Offer it to who has the container, or record `moved` into it.');
  if (to.kind === 'courier' && to.id === personId) throw refuse('is the giver', 'A hand-over has two sides: giver and receiver are two people. Record `moved` when you carry it yourself.');
}

async function namedThings(stores: Stores, input: OfferHandOverInput): Promise<NamedThing[]> {
  const byTag = await thingsOfTags(stores, input.incidentId, input.tags.map((text, index) => ({ text, pointer: `#/tags/${index}` })));
  return distinct([
    ...input.itemIds.map((id, index): NamedThing => ({ kind: 'item', id, pointer: `#/itemIds/${index}` })),
    ...input.containerIds.map((id, index): NamedThing => ({ kind: 'container', id, pointer: `#/containerIds/${index}` })),
    ...byTag,
  ]);
}

async function lineOf(stores: Stores, thing: NamedThing, lineNo: number, { items, containers }: LockedThings): Promise<HandOverLine> {
  const tagCode = (thing.kind === 'item' ? items.get(thing.id) : containers.get(thing.id))?.tagCode ?? '';
  const itemsInside = thing.kind === 'item' ? null : (await stores.containers.inside(thing.id)).items;
  return { lineNo, thing: thing.kind, id: thing.id, tagCode, itemsInside, state: 'offered', exception: null, note: '' };
}

/** One giver: what the offer says of who holds things must be true of all of them. @throws Problem wrong_keeper */
function oneGiver({ from }: OfferHandOverInput, things: readonly NamedThing[], { items, containers }: LockedThings): Keeper {
  const keepers = things.map((thing) => (thing.kind === 'item' ? items.get(thing.id)?.keeper : containers.get(thing.id)?.keeper) ?? null);
  const giver = from ?? keepers[0] ?? null;
  const others = things.filter((_, index) => !sameKeeper(keepers[index] ?? null, giver));
  if (giver !== null && others.length === 0) return giver;
  const [first] = others;
  throw new Problem('wrong_keeper', `${others.length} of these are held by somebody else on record, or have no record yet. Look at where they really are; offer what one giver holds as one hand-over.`, {
    errors: others.map(({ pointer }) => ({ detail: 'is not held by the giver', code: 'wrong_keeper', pointer })),
    members: { keeper: first === undefined ? null : keepers[things.indexOf(first)], reason: 'wrong_keeper' },
  });
}

async function offerThing(stores: Stores, call: UseCaseCall, handOver: HandOverRecord, thing: NamedThing & { tagCode: string }, { items, containers }: LockedThings): Promise<void> {
  const { from, to } = handOver;
  const refs = { [REF.handOverId]: handOver.id, [REF.offeredKind]: to.kind, [REF.offeredId]: to.id, [REF.personId]: handOver.giverId };
  const passing: Passing = { kind: 'hand-over-offered', from, to: from, refs, occurredAtMs: call.env.nowMs };
  const [item, container] = [items.get(thing.id), containers.get(thing.id)];
  await aboutThing(thing, async () => {
    if (container) {
      refuseContainerAt(to);
      await recordContainer(stores, call, container, passing);
    } else if (item) {
      if (to.kind === 'specialist') await agreementToRefer(stores, item);
      if (item.stage === 'referred-out' && to.kind !== 'courier' && to.kind !== 'vehicle') throw new Problem('wrong_stage', 'What comes back from a specialist is taken back with a look at it: record `referral-returns` when it is here. On its way it may be handed to a courier or a vehicle.', { members: { stage: item.stage, keeper: item.keeper } });
      await recordCustody(stores, call, item, passing);
    }
  });
}
