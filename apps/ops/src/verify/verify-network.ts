import { CHAIN_KINDS, type AuditedEvent, type CallContext, type ChainKind, type ChainPlace, type Stores, type UnitOfWork } from '#application';
import { verifyChain, verifyRoot, verifyUnderRoot, type ChainFault, type RootFault, type SignatureCheck, type SignedRoot } from '#custody';
import { workerContext } from '#messaging';
import { verifyEd25519 } from '#platform';

/** What does not fit, and where. */
export interface Fault {
  networkId: string;
  /** Item or container. */
  itemId?: string;
  seq?: number;
  rootNo?: number;
  what: FaultKind;
}

/**
 * `row`             something in the row of an event that is not hashed contradicts the rest of it, its item or its root
 * `no_item`         an event of an item or container that is not there
 * `no_events`       an item or container that says it has events and has none
 * `under_no_root`   an event that is under no root and does not wait for one
 * `waits_changed`   an event that was altered while it waited for a root
 * `waits_gone`      an event waits for a root and is not there
 * `waits_twice`     an event waits for a root although it is under one
 * `subtree`         the inner nodes that are stored with a root are not those of its leaves
 */
export type FaultKind = ChainFault['fault'] | RootFault['fault'] | 'row' | 'no_item' | 'no_events' | 'under_no_root' | 'waits_changed' | 'waits_gone' | 'waits_twice' | 'subtree';

export interface Counts {
  chains: number;
  events: number;
  roots: number;
  /** Events that wait for a root, and since when the earliest does. */
  waiting: number;
  waitingSinceMs: number | null;
}

/** Rows of one statement; bounds the memory together with the longest chain and the largest root. */
const PAGE_EVENTS = 2_000;
const PAGE_ROOTS = 100;
const PAGE_ODD = 500;

export interface NetworkCheck {
  unitOfWork: UnitOfWork;
  networkId: string;
  onFault(fault: Fault): void;
  pageEvents?: number;
}

/**
 * Checks every chain of a network against itself, its head and the roots, and every root against its line and what is under it.
 * Reads in short transactions while others write: whatever belongs together is read in one statement, and only grows.
 */
export async function verifyNetwork(check: NetworkCheck): Promise<Counts> {
  const context = workerContext(check.networkId, 'verify', '');
  const reader: Reader = { ...check, context, add: (what, where = {}) => check.onFault({ networkId: check.networkId, ...where, what }) };
  const counts: Counts = { chains: 0, events: 0, roots: 0, waiting: 0, waitingSinceMs: null };
  for (const kind of CHAIN_KINDS) await verifyChains(reader, kind, counts);
  await verifyRoots(reader, counts);
  for (const { id, seq } of await read(reader, (stores) => stores.custodyAudit.waitingForNothing(PAGE_ODD))) reader.add('waits_gone', { itemId: id, seq });
  const { count, sinceMs } = await read(reader, (stores) => stores.custodyAudit.waiting());
  return { ...counts, waiting: count, waitingSinceMs: sinceMs };
}

interface Reader extends NetworkCheck {
  context: CallContext;
  add(what: FaultKind, where?: { itemId?: string; seq?: number; rootNo?: number }): void;
}

function read<T>({ unitOfWork, context }: Reader, work: (stores: Stores) => Promise<T>): Promise<T> {
  return unitOfWork.read(context, work);
}

async function verifyChains(reader: Reader, kind: ChainKind, counts: Counts): Promise<void> {
  const limit = reader.pageEvents ?? PAGE_EVENTS;
  let chain: AuditedEvent[] = [];
  let after: ChainPlace | null = null;
  for (;;) {
    const place: ChainPlace | null = after;
    const page: AuditedEvent[] = await read(reader, (stores) => stores.custodyAudit.events(kind, place, limit));
    for (const audited of page) {
      if (chain.length > 0 && chain[0]?.event.itemId !== audited.event.itemId) {
        verifyOne(reader, chain, counts);
        chain = [];
      }
      chain.push(audited);
    }
    const last = page.at(-1);
    if (!last || page.length < limit) break;
    after = { id: last.event.itemId, seq: last.event.seq };
  }
  if (chain.length > 0) verifyOne(reader, chain, counts);
  await verifyEmpty(reader, kind);
}

/** One chain, in the order of its numbers. The head is the one that was read with its last event. */
function verifyOne(reader: Reader, chain: readonly AuditedEvent[], counts: Counts): void {
  counts.chains += 1;
  counts.events += chain.length;
  const itemId = chain[0]?.event.itemId ?? '';
  const head = chain.at(-1)?.head ?? null;
  for (const { seq, fault } of verifyChain(chain.map(({ event }) => event), head ?? undefined)) reader.add(fault, { itemId, seq });
  if (head === null) reader.add('no_item', { itemId, seq: chain.at(-1)?.event.seq ?? 0 });
  for (const { event, contradicts, rootNo, waitingHash } of chain) {
    const where = { itemId, seq: event.seq };
    if (contradicts) reader.add('row', where);
    if (rootNo === null && waitingHash === null) reader.add('under_no_root', where);
    if (rootNo !== null && waitingHash !== null) reader.add('waits_twice', where);
    if (waitingHash !== null && waitingHash !== event.hash) reader.add('waits_changed', where);
  }
}

async function verifyEmpty(reader: Reader, kind: ChainKind): Promise<void> {
  let afterId: string | null = null;
  for (;;) {
    const from: string | null = afterId;
    const page: ChainPlace[] = await read(reader, (stores) => stores.custodyAudit.withoutEvents(kind, from, PAGE_ODD));
    for (const { id, seq } of page) reader.add('no_events', { itemId: id, seq });
    if (page.length < PAGE_ODD) return;
    afterId = page.at(-1)?.id ?? null;
  }
}

async function verifyRoots(reader: Reader, counts: Counts): Promise<void> {
  const check = await signatureCheckOf(reader);
  const missing = new Set<number>();
  let before: SignedRoot | null = null;
  for (;;) {
    const afterNo: number = before?.rootNo ?? 0;
    const page: SignedRoot[] = await read(reader, (stores) => stores.custodyRoots.page(PAGE_ROOTS, afterNo));
    for (const root of page) {
      for (const { rootNo, fault } of verifyRoot(reader.networkId, root, before, check)) {
        if (fault === 'root_missing') missing.add(rootNo);
        reader.add(fault, { rootNo });
      }
      await verifyUnder(reader, root);
      counts.roots += 1;
      before = root;
    }
    if (page.length < PAGE_ROOTS) break;
  }
  for (const { rootNo, id, seq } of await read(reader, (stores) => stores.custodyAudit.assignedNowhere(PAGE_ODD))) {
    if (!missing.has(rootNo)) reader.add('root_missing', { rootNo, itemId: id, seq });
  }
}

async function verifyUnder(reader: Reader, root: SignedRoot): Promise<void> {
  const [assigned, { leaves, subtreesHold }] = await read(reader, async (stores) => [await stores.custodyAudit.assigned(root.rootNo), await stores.custodyAudit.leaves(root.rootNo)] as const);
  for (const { rootNo, fault, itemId, seq } of verifyUnderRoot(root, leaves, assigned)) {
    reader.add(fault, { rootNo, ...(itemId !== undefined && { itemId }), ...(seq !== undefined && { seq }) });
  }
  if (!subtreesHold) reader.add('subtree', { rootNo: root.rootNo });
}

async function signatureCheckOf(reader: Reader): Promise<SignatureCheck> {
  const keys = new Map((await read(reader, (stores) => stores.custodyRoots.keys())).map(({ keyId, publicKey }) => [keyId, publicKey]));
  return { publicKeyOf: (keyId) => keys.get(keyId) ?? null, verifySignature: verifyEd25519 };
}

