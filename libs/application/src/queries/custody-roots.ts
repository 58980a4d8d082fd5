import { pathThroughBlocks, BLOCK_LEAVES, type CustodyEvent, type ItemCustody, type SignedRoot } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { CustodyKeyRecord, EventRoot } from '../ports/custody-root-store.js';
import type { Stores } from '../ports/work.js';

export interface KeyedRoot {
  root: SignedRoot;
  /** null when the key that the root names is not there: that root proves nothing. */
  publicKey: string | null;
}

/** An event with the path to the root it is under; null while it waits for one. */
export interface EventProof {
  event: CustodyEvent;
  inclusion: { rootNo: number; leafIndex: number; path: Uint8Array[]; root: KeyedRoot | null } | null;
}

export async function listCustodyKeys(stores: Stores): Promise<CustodyKeyRecord[]> {
  return stores.custodyRoots.keys();
}

export async function listCustodyRoots(stores: Stores, _call: UseCaseCall, input: { limit: number; afterNo: number }): Promise<KeyedRoot[]> {
  return withKeys(stores, await stores.custodyRoots.page(input.limit, input.afterNo));
}

export async function getCustodyRoot(stores: Stores, _call: UseCaseCall, input: { rootNo: number }): Promise<KeyedRoot> {
  const root = await stores.custodyRoots.find(input.rootNo);
  const [keyed] = root === null ? [] : await withKeys(stores, [root]);
  if (!keyed) throw notFound('custody root');
  return keyed;
}

/** Events of an item after one of them, each with what proves that it is under a signed root. */
export async function listCustodyProofs(stores: Stores, _call: UseCaseCall, input: { itemId: string; afterSeq: number; limit: number }): Promise<EventProof[]> {
  if (!(await stores.items.find(input.itemId))) throw notFound('item');
  const events = await stores.custody.chain(input.itemId, input.afterSeq, input.limit);
  return proved(stores, input.itemId, events);
}

/** Events of a chain that are read at once. */
const CHAIN_PAGE = 500;

/** Everything that is needed to check the record of one item; checked by the caller, outside of the transaction. */
export async function loadCustodyVerification(stores: Stores, _call: UseCaseCall, input: { itemId: string }): Promise<{ head: ItemCustody; proofs: EventProof[] }> {
  // Locked against nothing: the head is read after the events, and events that came in between are read until both agree.
  const proofs: EventProof[] = [];
  for (;;) {
    const page = await listCustodyProofs(stores, _call, { itemId: input.itemId, afterSeq: proofs.at(-1)?.event.seq ?? 0, limit: CHAIN_PAGE });
    proofs.push(...page);
    const item = await stores.items.find(input.itemId);
    if (!item) throw notFound('item');
    if (page.length === 0 || (page.length < CHAIN_PAGE && item.seq <= (proofs.at(-1)?.event.seq ?? 0))) {
      const { networkId, id: itemId, seq, headHash, keeper, stage, matters } = item;
      return { head: { networkId, itemId, seq, headHash, keeper, stage, matters }, proofs };
    }
  }
}

async function proved(stores: Stores, itemId: string, events: readonly CustodyEvent[]): Promise<EventProof[]> {
  const [first, last] = [events[0], events.at(-1)];
  if (!first || !last) return [];
  const places = new Map((await stores.custodyRoots.rootsOf(itemId, first.seq - 1, last.seq)).map((place) => [place.seq, place]));
  const roots = new Map((await withKeys(stores, await stores.custodyRoots.findMany([...new Set([...places.values()].map(({ rootNo }) => rootNo))]))).map((keyed) => [keyed.root.rootNo, keyed]));
  const pathOf = pathReader(stores);
  const proofs: EventProof[] = [];
  for (const event of events) {
    const place = places.get(event.seq);
    proofs.push({ event, inclusion: place ? { rootNo: place.rootNo, leafIndex: place.leafIndex, path: await pathOf(place), root: roots.get(place.rootNo) ?? null } : null });
  }
  return proofs;
}

/** Reads paths; what two of them share is read once. A block that is not there gives no path. */
function pathReader(stores: Stores): (place: EventRoot) => Promise<Uint8Array[]> {
  const [blocks, subtrees] = [new Map<string, Uint8Array[]>(), new Map<number, Uint8Array[]>()];
  return async ({ rootNo, leafIndex }) => {
    const blockNo = Math.floor(leafIndex / BLOCK_LEAVES);
    const at = `${rootNo}/${blockNo}`;
    const block = blocks.get(at) ?? (await stores.custodyRoots.block(rootNo, blockNo));
    const tops = subtrees.get(rootNo) ?? (await stores.custodyRoots.subtrees(rootNo));
    blocks.set(at, block);
    subtrees.set(rootNo, tops);
    return leafIndex % BLOCK_LEAVES < block.length && blockNo < tops.length ? pathThroughBlocks(block, tops, leafIndex) : [];
  };
}

async function withKeys(stores: Stores, roots: readonly SignedRoot[]): Promise<KeyedRoot[]> {
  if (roots.length === 0) return [];
  const keys = new Map((await stores.custodyRoots.keys()).map(({ keyId, publicKey }) => [keyId, publicKey]));
  return roots.map((root) => ({ root, publicKey: keys.get(root.keyId) ?? null }));
}
