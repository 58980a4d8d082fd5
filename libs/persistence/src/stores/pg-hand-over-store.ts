import type { HandOverHead, HandOverLine, HandOverRecord, HandOverState, HandOverStore } from '#application';
import type { Keeper } from '#custody';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface HandOverRow {
  id: string;
  incident_id: string;
  from_kind: Keeper['kind'];
  from_id: string;
  to_kind: Keeper['kind'];
  to_id: string;
  giver_id: string;
  reason: string;
  state: HandOverState;
  offered_at: Date;
  expires_at: Date;
  ended_at: Date | null;
  ended_by: string | null;
  ended_note: string;
  version: number;
  things: number;
}

interface LineRow {
  line_no: number;
  item_id: string | null;
  container_id: string | null;
  tag_code: string;
  items_inside: number | null;
  state: HandOverLine['state'];
  exception: HandOverLine['exception'];
  note: string;
}

const SELECT = 'select h.*, (select count(*)::int from hand_over_line l where l.network_id = h.network_id and l.hand_over_id = h.id) as things from hand_over h';

function toHead(row: HandOverRow): HandOverHead {
  return {
    id: row.id, incidentId: row.incident_id, from: { kind: row.from_kind, id: row.from_id }, to: { kind: row.to_kind, id: row.to_id }, giverId: row.giver_id, reason: row.reason, state: row.state,
    offeredAtMs: row.offered_at.getTime(), expiresAtMs: row.expires_at.getTime(), endedAtMs: msOrNull(row.ended_at), endedBy: row.ended_by, endedNote: row.ended_note, version: row.version, things: row.things,
  };
}

function toLine(row: LineRow): HandOverLine {
  const { item_id: itemId, container_id: containerId } = row;
  return { lineNo: row.line_no, thing: itemId === null ? 'container' : 'item', id: itemId ?? containerId ?? '', tagCode: row.tag_code, itemsInside: row.items_inside, state: row.state, exception: row.exception, note: row.note };
}

export class PgHandOverStore implements HandOverStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(handOver: HandOverRecord): Promise<void> {
    const { from, to, lines } = handOver;
    await this.client.query({
      name: 'hand_over_insert',
      text: `insert into hand_over (network_id, incident_id, id, from_kind, from_id, to_kind, to_id, giver_id, reason, state, offered_at, expires_at)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      values: [this.networkId, handOver.incidentId, handOver.id, from.kind, from.id, to.kind, to.id, handOver.giverId, handOver.reason, handOver.state, at(handOver.offeredAtMs), at(handOver.expiresAtMs)],
    });
    const idsOf = (thing: HandOverLine['thing']) => lines.map((line) => (line.thing === thing ? line.id : null));
    await this.client.query({
      name: 'hand_over_lines_insert',
      text: `insert into hand_over_line (network_id, incident_id, hand_over_id, line_no, item_id, container_id, items_inside, state)
             select $1, $2, $3, l.no, l.item_id, l.container_id, l.inside, 'offered' from unnest($4::int[], $5::uuid[], $6::uuid[], $7::int[]) l (no, item_id, container_id, inside)`,
      values: [this.networkId, handOver.incidentId, handOver.id, lines.map(({ lineNo }) => lineNo), idsOf('item'), idsOf('container'), lines.map(({ itemsInside }) => itemsInside)],
    });
  }

  find(handOverId: string): Promise<HandOverRecord | null> {
    return this.load(handOverId, false);
  }

  lock(handOverId: string): Promise<HandOverRecord | null> {
    return this.load(handOverId, true);
  }

  private async load(handOverId: string, lock: boolean): Promise<HandOverRecord | null> {
    const { rows } = await this.client.query<HandOverRow>({
      name: lock ? 'hand_over_lock' : 'hand_over_find',
      text: `${SELECT} where h.network_id = $1 and h.id = $2 ${lock ? 'for no key update of h' : ''}`,
      values: [this.networkId, handOverId],
    });
    const head = rows[0];
    if (!head) return null;
    const { rows: lines } = await this.client.query<LineRow>({
      name: 'hand_over_lines',
      text: `select l.line_no, l.item_id, l.container_id, coalesce(i.tag_code, c.tag_code) as tag_code, l.items_inside, l.state, l.exception, l.note from hand_over_line l
             left join item i on i.network_id = l.network_id and i.id = l.item_id left join container c on c.network_id = l.network_id and c.id = l.container_id
             where l.network_id = $1 and l.hand_over_id = $2 order by l.line_no`,
      values: [this.networkId, handOverId],
    });
    return { ...toHead(head), lines: lines.map(toLine) };
  }

  async end(handOver: HandOverRecord): Promise<void> {
    await this.client.query({
      name: 'hand_over_end',
      text: `update hand_over set state = $3, ended_at = $4, ended_by = $5, ended_note = $6, version = version + 1 where network_id = $1 and id = $2`,
      values: [this.networkId, handOver.id, handOver.state, at(handOver.endedAtMs), handOver.endedBy, handOver.endedNote],
    });
    const { lines } = handOver;
    await this.client.query({
      name: 'hand_over_lines_end',
      text: `update hand_over_line l set state = e.state, exception = e.exception, note = e.note from unnest($3::int[], $4::text[], $5::text[], $6::text[]) e (no, state, exception, note)
             where l.network_id = $1 and l.hand_over_id = $2 and l.line_no = e.no`,
      values: [this.networkId, handOver.id, lines.map(({ lineNo }) => lineNo), lines.map(({ state }) => state), lines.map(({ exception }) => exception), lines.map(({ note }) => note)],
    });
  }

  async page(incidentId: string, state: HandOverState | null, limit: number, after: { open: boolean; id: string } | null): Promise<HandOverHead[]> {
    const { rows } = await this.client.query<HandOverRow>(
      `${SELECT} where h.network_id = $1 and h.incident_id = $2 and ($3::text is null or h.state = $3) and ($5::uuid is null or ((h.state <> 'open'), h.id) > ($4::boolean, $5))
       order by (h.state <> 'open'), h.id limit $6`,
      [this.networkId, incidentId, state, after === null ? null : !after.open, after?.id ?? null, limit],
    );
    return rows.map(toHead);
  }
}
