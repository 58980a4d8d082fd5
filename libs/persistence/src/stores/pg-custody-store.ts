import type { CustodyStore } from '#application';
import type { CustodyEvent } from '#custody';
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

export class PgCustodyStore implements CustodyStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async append(event: CustodyEvent, incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ version: number }>({
      name: 'custody_append',
      text: `with moved as (
               update item set seq = $4, head_hash = $19, keeper_kind = $9, keeper_id = $10, stage = $11, version = version + 1, updated_at = $14
               where network_id = $1 and id = $3 and incident_id = $2 and seq = $4 - 1 and head_hash = $18 returning version
             ), written as (
               insert into custody_event (${COLUMNS}) select ${PLACES.replace('$15', '$15::jsonb')} from moved returning seq
             ) select moved.version from moved, written`,
      values: eventValues(event, incidentId),
    });
    if (!rows[0]) throw new Error('custody append: the item moved on although its row was locked');
    return rows[0].version;
  }

  async appendFirst(events: readonly CustodyEvent[], incidentId: string): Promise<void> {
    for (const event of events) {
      await this.client.query({ name: 'custody_first', text: `insert into custody_event (${COLUMNS}) values (${PLACES})`, values: eventValues(event, incidentId) });
    }
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
