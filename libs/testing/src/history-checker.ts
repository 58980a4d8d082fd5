/**
 * Holds what clients were told against what the database holds after a run with faults. It reads histories only: what was
 * promised, and what is there. Every command writes something unique that can be found again in its event, so that each check
 * is one pass over the history, as in the Elle checker (Kingsbury and Alvaro, "Elle: Inferring Isolation Anomalies from
 * Experimental Observations", arXiv 2003.10554), whose anomalies of transactions are not ours: items have one keeper and a chain.
 */
import { hashEvent, sameKeeper, type CustodyEvent, type ItemCustody, type Keeper } from '#custody';

/** One client's whole experience of a command, with all its retries under one idempotency key. Twins share `cmd`. */
export interface ClientRecord {
  /** Unique text of the command, carried by the event that it makes. */
  cmd: string;
  itemId: string;
  from: Keeper;
  to: Keeper;
  /** Milliseconds of one monotonic clock for all clients: when it was first sent, and when the definite answer came. */
  invokedAtMs: number;
  returnedAtMs: number | null;
  /** `unknown` is a command without a definite answer, whatever it did. */
  outcome: 'ok' | 'refused' | 'unknown';
  /** The event number that an `ok` answer named. */
  seq: number | null;
}

/** Work that an event asked for, as its row says it ended. */
export interface EffectRow {
  subjectId: string;
  /** Epoch milliseconds; null when it was never done. */
  doneAtMs: number | null;
}

/** What the database holds when everything has come to rest. */
export interface StoredHistory {
  /** As they were hashed, with the reason in words beside, which the chain holds as a hash. */
  events: readonly (CustodyEvent & { told?: string | undefined })[];
  /** The projection of every item. */
  heads: readonly ItemCustody[];
  /** Number of events of each item before the clients began; these no client has sent. */
  before: ReadonlyMap<string, number>;
  /** Rows that were written with the events, one for each, so that it comes under a root. */
  ledger: readonly { itemId: string; seq: number }[];
  /** Keepers whose room or freezer is reckoned anew when a thing comes or goes, by id. */
  watched: ReadonlySet<string>;
  effects: readonly EffectRow[];
}

export const VIOLATION_KINDS = ['LOST_ACKED', 'DUPLICATE', 'REJECTED_BUT_APPLIED', 'PHANTOM_EVENT', 'ACK_SEQ_MISMATCH', 'SEQ_GAP', 'TWO_KEEPERS', 'HASH_BREAK', 'PROJECTION_DRIFT', 'OUTBOX', 'REALTIME_ORDER'] as const;
export type ViolationKind = (typeof VIOLATION_KINDS)[number];

export interface Violation {
  kind: ViolationKind;
  itemId: string;
  seq: number | null;
  cmd: string | null;
  detail: string;
}

/** The command of an event: its reason, which the clients of a fault run make unique. */
export function commandOf(event: Pick<CustodyEvent, 'refs'> & { told?: string | undefined }): string | null {
  return event.told ?? event.refs['reason'] ?? null;
}

/** Every violation of what was promised; empty for a sound history. Time and memory grow with the history, no faster (but for sorting each chain). */
export function checkHistory(clients: readonly ClientRecord[], stored: StoredHistory): Violation[] {
  const byCommand = groupBy(stored.events.filter((event) => commandOf(event) !== null), (event) => commandOf(event) ?? '');
  const asked = groupBy(clients, (record) => record.cmd);
  const chains = groupBy(stored.events, (event) => event.itemId);
  for (const chain of chains.values()) chain.sort((a, b) => a.seq - b.seq);
  return [
    ...clients.flatMap((record) => promiseKept(record, byCommand.get(record.cmd) ?? [])),
    ...[...byCommand].flatMap(([cmd, events]) => appliedOnce(cmd, events)),
    ...stored.events.flatMap((event) => asked.has(commandOf(event) ?? '') || event.seq <= (stored.before.get(event.itemId) ?? 0) ? [] : [violation('PHANTOM_EVENT', event, 'no client ever sent it')]),
    ...stored.heads.flatMap((head) => chainFaults(head, chains.get(head.itemId) ?? [])),
    ...orphans(stored.heads, chains),
    ...[...chains.values()].flatMap((chain) => orderFaults(chain, asked)),
    ...ledgerFaults(stored),
    ...effectFaults(stored),
  ];
}

function violation(kind: ViolationKind, event: CustodyEvent, detail: string): Violation {
  return { kind, itemId: event.itemId, seq: event.seq, cmd: commandOf(event), detail };
}

function promiseKept(record: ClientRecord, events: readonly CustodyEvent[]): Violation[] {
  const about = { itemId: record.itemId, cmd: record.cmd };
  if (record.outcome === 'ok' && events.length === 0) return [{ kind: 'LOST_ACKED', ...about, seq: record.seq, detail: 'acknowledged, and no event of it is there' }];
  if (record.outcome === 'refused' && events.length > 0) return [{ kind: 'REJECTED_BUT_APPLIED', ...about, seq: events[0]?.seq ?? null, detail: 'refused, and yet an event of it is there' }];
  if (record.outcome !== 'ok' || events.some((event) => event.itemId === record.itemId && event.seq === record.seq)) return [];
  return [{ kind: 'ACK_SEQ_MISMATCH', ...about, seq: record.seq, detail: `acknowledged as event ${record.seq}, stored as ${events.map((event) => event.seq).join(', ')}` }];
}

function appliedOnce(cmd: string, events: readonly CustodyEvent[]): Violation[] {
  const first = events[0];
  return first === undefined || events.length === 1 ? [] : [{ kind: 'DUPLICATE', itemId: first.itemId, seq: events[1]?.seq ?? null, cmd, detail: `${events.length} events of one command` }];
}

/** One walk along a chain: numbers without a gap, each giver the keeper before, each link and hash sound, and the projection at its end. */
function chainFaults(head: ItemCustody, chain: readonly CustodyEvent[]): Violation[] {
  const found: Violation[] = [];
  let last: { seq: number; hash: string; to: Keeper | null } = { seq: 0, hash: '0'.repeat(64), to: null };
  for (const event of chain) {
    if (event.seq !== last.seq + 1) found.push(violation('SEQ_GAP', event, `follows event ${last.seq}`));
    if (!sameKeeper(event.from, last.to)) found.push(violation('TWO_KEEPERS', event, 'given by a keeper that did not hold it'));
    if (event.prevHash !== last.hash || hashEvent(event) !== event.hash) found.push(violation('HASH_BREAK', event, 'does not link, or is not what was hashed'));
    last = event;
  }
  const end = chain.at(-1);
  const sound = end !== undefined && head.seq === end.seq && head.headHash === end.hash && head.stage === end.stage && sameKeeper(head.keeper, end.to);
  if (!sound) found.push({ kind: 'PROJECTION_DRIFT', itemId: head.itemId, seq: head.seq, cmd: null, detail: `the item says event ${head.seq}, its chain ends with ${end?.seq ?? 'none'}` });
  return found;
}

/** Events of an item that has no row. */
function orphans(heads: readonly ItemCustody[], chains: ReadonlyMap<string, readonly CustodyEvent[]>): Violation[] {
  const items = new Set(heads.map((head) => head.itemId));
  return [...chains].flatMap(([itemId, chain]) => (items.has(itemId) ? [] : [{ kind: 'PROJECTION_DRIFT' as const, itemId, seq: chain[0]?.seq ?? null, cmd: null, detail: 'events of an item that is not there' }]));
}

/**
 * What was over before another began must stand before it. From the end of the chain backwards, with the earliest return of any
 * later event: one pass finds whether any pair is the wrong way round.
 */
function orderFaults(chain: readonly CustodyEvent[], asked: ReadonlyMap<string, readonly ClientRecord[]>): Violation[] {
  const found: Violation[] = [];
  let earliest = { returnedAtMs: Infinity, seq: 0 };
  for (const event of chain.toReversed()) {
    const records = asked.get(commandOf(event) ?? '') ?? [];
    const invokedAtMs = Math.min(...records.map((record) => record.invokedAtMs));
    if (records.length > 0 && earliest.returnedAtMs < invokedAtMs) found.push(violation('REALTIME_ORDER', event, `event ${earliest.seq} was acknowledged before this was sent, and stands after it`));
    const returnedAtMs = Math.min(...records.map((record) => (record.outcome === 'ok' ? (record.returnedAtMs ?? Infinity) : Infinity)));
    if (returnedAtMs < earliest.returnedAtMs) earliest = { returnedAtMs, seq: event.seq };
  }
  return found;
}

function ledgerFaults({ events, ledger }: StoredHistory): Violation[] {
  const rows = new Map<string, number>();
  for (const { itemId, seq } of ledger) rows.set(`${itemId} ${seq}`, (rows.get(`${itemId} ${seq}`) ?? 0) + 1);
  const found: Violation[] = [];
  for (const event of events) {
    const key = `${event.itemId} ${event.seq}`;
    const count = rows.get(key) ?? 0;
    if (count !== 1) found.push(violation('OUTBOX', event, `${count} rows were written with the event`));
    rows.delete(key);
  }
  for (const key of rows.keys()) {
    const [itemId = '', seq] = key.split(' ');
    found.push({ kind: 'OUTBOX', itemId, seq: Number(seq), cmd: null, detail: 'a row without its event' });
  }
  return found;
}

/** One reckoning may answer several events, but there is none before an event that answers it. */
function effectFaults({ events, watched, effects }: StoredHistory): Violation[] {
  const lastDoneMs = new Map<string, number>();
  for (const { subjectId, doneAtMs } of effects) lastDoneMs.set(subjectId, Math.max(lastDoneMs.get(subjectId) ?? -Infinity, doneAtMs ?? -Infinity));
  return events.flatMap((event) =>
    [event.from, event.to].flatMap((keeper) => (keeper !== null && watched.has(keeper.id) && (lastDoneMs.get(keeper.id) ?? -Infinity) < event.recordedAtMs ? [violation('OUTBOX', event, `the ${keeper.kind} was not reckoned after it`)] : [])),
  );
}

function groupBy<T>(list: readonly T[], keyOf: (entry: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const entry of list) {
    const group = groups.get(keyOf(entry));
    if (group === undefined) groups.set(keyOf(entry), [entry]);
    else group.push(entry);
  }
  return groups;
}
