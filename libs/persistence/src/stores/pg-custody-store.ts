import { type CustodyStore, type OwnWords, type PersonalStore, personalField } from '#application';
import type { CustodyEvent, Keeper, OpenMatters } from '#custody';
import type { Client } from '../pool.js';
import { at } from './row.js';

export interface EventRow {
  network_id: string;
  item_id: string;
  seq: number;
  command_id: string;
  kind: CustodyEvent['kind'];
  from_kind: CustodyEvent['to']['kind'] | null;
  from_id: string | null;
  to_kind: CustodyEvent['to']['kind'];
  to_id: string;
  stage: CustodyEvent['stage'];
  actor_id: string;
  occurred_at: Date;
  recorded_at: Date;
  refs: Record<string, string>;
  corrects_seq: number | null;
  corrects_reason: string | null;
  prev_hash: string;
  hash: string;
  form: 1;
}

const COLUMNS = `network_id, incident_id, item_id, seq, command_id, kind, from_kind, from_id, to_kind, to_id, stage, actor_id,
  occurred_at, recorded_at, refs, corrects_seq, corrects_reason, prev_hash, hash, form`;
const PLACES = Array.from({ length: 20 }, (_, index) => `$${index + 1}`).join(', ');

export function eventValues(event: CustodyEvent, incidentId: string): unknown[] {
  return [
    event.networkId, incidentId, event.itemId, event.seq, event.commandId, event.kind, event.from?.kind ?? null, event.from?.id ?? null, event.to.kind, event.to.id, event.stage, event.actorId,
    at(event.occurredAtMs), at(event.recordedAtMs), JSON.stringify(event.refs), event.corrects?.seq ?? null, event.corrects?.reason ?? null, event.prevHash, event.hash, event.v,
  ];
}

/** Parameters of the columns in which open matters stand. */
export function matterValues({ handOver, disputed, missing }: OpenMatters): unknown[] {
  return [handOver?.id ?? null, handOver?.to.kind ?? null, handOver?.to.id ?? null, disputed, missing];
}

export interface MatterRow {
  hand_over_id: string | null;
  hand_over_to_kind: Keeper['kind'] | null;
  hand_over_to_id: string | null;
  disputed: boolean;
  missing: boolean;
}

/** What is open, from its columns. */
export function toMatters(row: MatterRow): OpenMatters {
  const { hand_over_id: id, hand_over_to_kind: kind, hand_over_to_id: toId, disputed, missing } = row;
  return { handOver: id === null || kind === null || toId === null ? null : { id, to: { kind, id: toId } }, disputed, missing };
}

/** The custody event as it was hashed, from its row. */
export function toEvent(row: EventRow): CustodyEvent {
  return {
    v: row.form,
    networkId: row.network_id,
    itemId: row.item_id,
    seq: row.seq,
    commandId: row.command_id,
    kind: row.kind,
    from: row.from_kind === null || row.from_id === null ? null : { kind: row.from_kind, id: row.from_id },
    to: { kind: row.to_kind, id: row.to_id },
    stage: row.stage,
    actorId: row.actor_id,
    occurredAtMs: row.occurred_at.getTime(),
    recordedAtMs: row.recorded_at.getTime(),
    refs: row.refs,
    corrects: row.corrects_seq === null ? null : { seq: row.corrects_seq, reason: row.corrects_reason ?? '' },
    prevHash: row.prev_hash,
    hash: row.hash,
  };
}

export const custodyWordsField = (chainId: string, seq: number): string => personalField('custody_words', `${chainId}:${seq}`);

export class PgCustodyStore implements CustodyStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
  ) {}

  async append(event: CustodyEvent, matters: OpenMatters, incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ version: number }>({
      name: 'custody_append',
      text: `with moved as (
               update item set seq = $4, head_hash = $19, keeper_kind = $9, keeper_id = $10, stage = $11, version = version + 1, updated_at = $14,
                 hand_over_id = $21, hand_over_to_kind = $22, hand_over_to_id = $23, disputed = $24::boolean, missing = $25::boolean,
                 last_seen_at = case when $25::boolean then last_seen_at else greatest(last_seen_at, least($13::timestamptz, $14::timestamptz)) end
               where network_id = $1 and id = $3 and incident_id = $2 and seq = $4 - 1 and head_hash = $18 returning version
             ), written as (
               insert into custody_event (${COLUMNS}) select ${PLACES.replace('$15', '$15::jsonb')} from moved returning seq
             ) select moved.version from moved, written`,
      values: [...eventValues(event, incidentId), ...matterValues(matters)],
    });
    if (!rows[0]) throw new Error('custody append: the item moved on although its row was locked');
    return rows[0].version;
  }

  async appendFirst(events: readonly CustodyEvent[], incidentId: string): Promise<void> {
    for (const event of events) {
      await this.client.query({ name: 'custody_first', text: `insert into custody_event (${COLUMNS}) values (${PLACES})`, values: eventValues(event, incidentId) });
    }
  }

  async keepWords(event: CustodyEvent, incidentId: string, householdId: string | null, words: OwnWords): Promise<void> {
    if (words.reason === undefined && words.correctsReason === undefined) return;
    await this.client.query({
      name: 'custody_words_kept',
      text: 'insert into custody_words (network_id, incident_id, chain_id, seq, household_id, sealed) values ($1, $2, $3, $4, $5, $6)',
      values: [this.networkId, incidentId, event.itemId, event.seq, householdId, await this.personal.seal(householdId, custodyWordsField(event.itemId, event.seq), JSON.stringify(words))],
    });
  }

  async wordsOf(chainId: string, seqs: readonly number[]): Promise<Map<number, OwnWords>> {
    const { rows } = await this.client.query<{ seq: number; household_id: string | null; sealed: Uint8Array | null }>({
      name: 'custody_words_of',
      text: 'select seq, household_id, sealed from custody_words where network_id = $1 and chain_id = $2 and seq = any($3::int[])',
      values: [this.networkId, chainId, seqs],
    });
    const opened = await this.personal.openAll(rows.map((row) => ({ householdId: row.household_id, field: custodyWordsField(chainId, row.seq), sealed: row.sealed })));
    return new Map(rows.flatMap(({ seq }, index) => (typeof opened[index] === 'string' ? [[seq, JSON.parse(opened[index]) as OwnWords] as const] : [])));
  }

  async chain(itemId: string, afterSeq: number, limit: number): Promise<CustodyEvent[]> {
    const { rows } = await this.client.query<EventRow>({
      name: 'custody_chain',
      text: 'select * from custody_event where network_id = $1 and item_id = $2 and seq > $3 order by seq limit $4',
      values: [this.networkId, itemId, afterSeq, limit],
    });
    return rows.map(toEvent);
  }
}
