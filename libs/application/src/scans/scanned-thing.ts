import type { CustodyEvent, CustodyEventKind, ItemCustody, Keeper, LastEvent, Stage } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { recordContainerPassing } from '../commands/record-container-passing.js';
import { PASSING_KINDS, recordPassing, type PassingKind } from '../commands/record-passing.js';
import { returnFromReferral } from '../commands/return-from-referral.js';
import { containerCustodyOf, recordContainer, refuseContainerAt } from '../custody/containers.js';
import { custodyOf, recordCustody } from '../custody/record-custody.js';
import { recordTruePlace } from '../custody/true-place.js';
import type { Scanned } from '../ports/scan-store.js';
import type { Stores } from '../ports/work.js';

/** Kind and number of the event that a scan made. */
export type Made = Pick<CustodyEvent, 'kind' | 'seq'>;

/** A thing that was scanned: an item, or a container with all that is in it. Locked. */
export interface ScannedThing {
  itemId: string | null;
  containerId: string | null;
  state: ItemCustody;
  last: LastEvent & { refs?: Readonly<Record<string, string>> };
  move(kind: CustodyEventKind): Promise<Made>;
  /** Keeps the claim that it is elsewhere. */
  dispute(): Promise<Made>;
  /** A missing thing is here, says the person who has it. */
  found(stage: Stage, personId: string): Promise<Made>;
}

type Seen = Pick<Scanned, 'seenAtMs' | 'personId'> & { scanId: string | null };

/** An item that was scanned at a place. @throws Problem not_found */
export async function scannedItem(stores: Stores, call: UseCaseCall, itemId: string, place: Keeper, seen: Seen): Promise<ScannedThing> {
  const item = await stores.items.lock(itemId);
  if (!item) throw notFound('item');
  const [last] = await stores.custody.chain(itemId, item.seq - 1, 1);
  if (!last) throw new Error('the item has no last event although its record says so');
  const { seenAtMs: occurredAtMs, personId } = seen;
  return {
    itemId, containerId: null, state: custodyOf(item), last,
    async move(kind) {
      if (!isPassing(kind)) {
        const back = await returnFromReferral(stores, call, { itemId, to: place, returnedAtMs: occurredAtMs });
        return { kind, seq: back.item.seq };
      }
      return (await recordPassing(stores, call, { itemId, kind, from: item.keeper, to: place, personId, occurredAtMs, reason: '', corrects: null, stage: null })).event;
    },
    async dispute() {
      return (await recordCustody(stores, call, item, { kind: 'location-disputed', from: item.keeper, to: item.keeper, refs: claimOf(place, seen), occurredAtMs })).event;
    },
    async found(stage, finder) {
      return (await recordTruePlace(stores, call, 'found-again', { itemId, at: place, personId: finder, stage, seenAtMs: occurredAtMs, ...(seen.scanId === null ? {} : { scanId: seen.scanId }) })).event;
    },
  };
}

/** A container that was scanned at a place. @throws Problem not_found, command_refused where no container can be */
export async function scannedContainer(stores: Stores, call: UseCaseCall, containerId: string, place: Keeper, seen: Seen): Promise<ScannedThing> {
  const [container] = await stores.containers.lockMany([containerId], 'update');
  if (!container) throw notFound('container');
  refuseContainerAt(place);
  const { seenAtMs: occurredAtMs, personId } = seen;
  const [last] = await stores.containers.chain(containerId, Math.max(0, container.seq - 1), 1);
  const from = container.keeper;
  const pass = async (kind: 'moved' | 'found-again', by: string | null) => (await recordContainerPassing(stores, call, { containerId, kind, from, to: place, personId: by, occurredAtMs, reason: '', corrects: null })).event;
  return {
    itemId: null, containerId, state: containerCustodyOf(container), last: last ?? { seq: 0, occurredAtMs: container.createdAtMs, recordedAtMs: container.createdAtMs },
    move: () => pass('moved', personId),
    async dispute() {
      const kept = from ?? place;
      return (await recordContainer(stores, call, container, { kind: 'location-disputed', from, to: kept, refs: claimOf(place, seen), occurredAtMs })).event;
    },
    found: (_stage, finder) => pass('found-again', finder),
  };
}

function claimOf(place: Keeper, { scanId, personId }: Seen): Record<string, string> {
  return { claimedKind: place.kind, claimedId: place.id, ...(scanId === null ? {} : { scanId }), ...(personId === null ? {} : { personId }) };
}

function isPassing(kind: CustodyEventKind): kind is PassingKind {
  return (PASSING_KINDS as readonly string[]).includes(kind);
}
