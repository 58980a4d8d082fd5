import type { PrintableTag, TagBlockRecord, TagBlockUse, TagDeed, TaggedPlace, TaggedPlaceKind, TagRecord, TagStore, TagTarget } from '#application';
import { makeTagCode, type TagKind } from '#custody';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface TagRow {
  code: string;
  kind: TagKind;
  incident_id: string;
  item_id: string | null;
  container_id: string | null;
  place_kind: TaggedPlaceKind | null;
  place_id: string | null;
  person_id: string | null;
  tied_at: Date | null;
  tied_by: string | null;
  retired_at: Date | null;
  retired_by: string | null;
  replaced_by: string | null;
  replaced_reason: string | null;
}

const COLUMNS = 'code, kind, incident_id, item_id, container_id, place_kind, place_id, person_id, tied_at, tied_by, retired_at, retired_by, replaced_by, replaced_reason';
/** As `COLUMNS` of `tag t`, but the tag of a record that was joined to another one leads to the thing that goes on. */
const LEADING = `${COLUMNS.split(', ').filter((column) => column !== 'item_id').map((column) => `t.${column}`).join(', ')},
  coalesce((with recursive line as (
      select i.id, i.stage, i.keeper_id from item i where i.network_id = t.network_id and i.id = t.item_id
      union select n.id, n.stage, n.keeper_id from line l join item n on n.network_id = t.network_id and n.id = l.keeper_id where l.stage = 'merged'
    ) select id from line where stage <> 'merged' limit 1), t.item_id) as item_id`;
const FREE = 'item_id is null and container_id is null and place_id is null and person_id is null';

function toRecord(row: TagRow): TagRecord {
  const { place_kind: placeKind, place_id: placeId, replaced_by: by } = row;
  return {
    code: row.code, kind: row.kind, incidentId: row.incident_id, itemId: row.item_id, containerId: row.container_id,
    place: placeKind === null || placeId === null ? null : { kind: placeKind, id: placeId }, personId: row.person_id,
    tiedAtMs: msOrNull(row.tied_at), tiedBy: row.tied_by,
    replaced: by === null ? null : { by, reason: row.replaced_reason ?? '', atMs: msOrNull(row.retired_at) ?? 0, actorId: row.retired_by ?? '' },
  };
}

interface BlockRow {
  id: string;
  incident_id: string;
  kind: TagKind;
  first_serial: number;
  last_serial: number;
  reserved_for: string;
  created_at: Date;
}

const BLOCK_COLUMNS = 'b.id, b.incident_id, b.kind, b.first_serial, b.last_serial, b.reserved_for, b.created_at';

function toBlock(row: BlockRow): TagBlockRecord {
  return { id: row.id, incidentId: row.incident_id, kind: row.kind, firstSerial: row.first_serial, lastSerial: row.last_serial, reservedFor: row.reserved_for, createdAtMs: row.created_at.getTime() };
}

/** The name of a place by its kind. */
const PLACE_NAME = `case t.place_kind
    when 'station' then (select s.name from station s where s.network_id = t.network_id and s.id = t.place_id)
    when 'holding' then (select h.name from holding_area h where h.network_id = t.network_id and h.id = t.place_id)
    when 'drying-place' then (select d.name from drying_place d where d.network_id = t.network_id and d.id = t.place_id)
    when 'freezer' then (select f.name from freezer f where f.network_id = t.network_id and f.id = t.place_id)
    when 'shelf' then (select l.name from shelf l where l.network_id = t.network_id and l.id = t.place_id)
    when 'vehicle' then (select v.name from vehicle v where v.network_id = t.network_id and v.id = t.place_id) end`;

export class PgTagStore implements TagStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async reserveSerials(kind: TagKind, count: number): Promise<number> {
    const { rows } = await this.client.query<{ next_serial: number }>(
      `insert into tag_serial (network_id, kind, next_serial) values ($1, $2, 1 + $3)
       on conflict (network_id, kind) do update set next_serial = tag_serial.next_serial + $3
       returning next_serial`,
      [this.networkId, kind, count],
    );
    return (rows[0]?.next_serial ?? 0) - count;
  }

  async insertBlock(block: TagBlockRecord, codes: readonly string[]): Promise<void> {
    await this.client.query(
      `insert into tag_block (network_id, incident_id, id, kind, first_serial, last_serial, reserved_for, created_at) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [this.networkId, block.incidentId, block.id, block.kind, block.firstSerial, block.lastSerial, block.reservedFor, at(block.createdAtMs)],
    );
    await this.client.query(
      `insert into tag (network_id, incident_id, code, kind, block_id) select $1, $2, unnest($5::text[]), $3, $4`,
      [this.networkId, block.incidentId, block.kind, block.id, codes],
    );
  }

  async block(blockId: string): Promise<TagBlockRecord | null> {
    const { rows } = await this.client.query<BlockRow>(`select ${BLOCK_COLUMNS} from tag_block b where b.network_id = $1 and b.id = $2`, [this.networkId, blockId]);
    return rows[0] ? toBlock(rows[0]) : null;
  }

  async blocks(incidentId: string, limit: number, before: string | null): Promise<TagBlockUse[]> {
    const { rows } = await this.client.query<BlockRow & { used: number }>(
      `select ${BLOCK_COLUMNS},
              (select count(*)::int from tag t where t.network_id = b.network_id and t.block_id = b.id
                 and num_nonnulls(t.item_id, t.container_id, t.place_id, t.person_id) > 0) as used
       from tag_block b where b.network_id = $1 and b.incident_id = $2 and ($4::uuid is null or b.id < $4) order by b.id desc limit $3`,
      [this.networkId, incidentId, limit, before],
    );
    return rows.map((row) => ({ ...toBlock(row), used: row.used }));
  }

  async printable(block: TagBlockRecord, from: number, count: number): Promise<PrintableTag[]> {
    // The codes follow from the serials, which give the order of the roll.
    const wanted = Array.from({ length: Math.max(0, Math.min(count, block.lastSerial - block.firstSerial + 1 - from)) }, (_, index) => makeTagCode(block.firstSerial + from + index, block.kind));
    const { rows } = await this.client.query<{ code: string; place_name: string | null }>(
      `select t.code, ${PLACE_NAME} as place_name from unnest($2::text[]) with ordinality w (code, place)
       join tag t on t.network_id = $1 and t.code = w.code and t.retired_at is null order by w.place`,
      [this.networkId, wanted],
    );
    return rows.map((row) => ({ code: row.code, placeName: row.place_name }));
  }

  async find(code: string): Promise<TagRecord | null> {
    const { rows } = await this.client.query<TagRow>({ name: 'tag_find', text: `select ${LEADING} from tag t where t.network_id = $1 and t.code = $2`, values: [this.networkId, code] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lock(code: string): Promise<TagRecord | null> {
    const { rows } = await this.client.query<TagRow>({ name: 'tag_lock', text: `select ${COLUMNS} from tag where network_id = $1 and code = $2 for no key update`, values: [this.networkId, code] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async predecessor(code: string): Promise<string | null> {
    const { rows } = await this.client.query<{ code: string }>({ name: 'tag_predecessor', text: 'select code from tag where network_id = $1 and replaced_by = $2', values: [this.networkId, code] });
    return rows[0]?.code ?? null;
  }

  async liveOf(target: { place: TaggedPlace } | { personId: string }): Promise<TagRecord | null> {
    const [which, values] = 'place' in target ? ['place_id = $2 and place_kind = $3', [target.place.id, target.place.kind]] : ['person_id = $2', [target.personId]];
    const { rows } = await this.client.query<TagRow>(`select ${COLUMNS} from tag where network_id = $1 and ${which} and retired_at is null`, [this.networkId, ...values]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async known(codes: readonly string[], incidentId: string | null): Promise<TagRecord[]> {
    const { rows } = await this.client.query<TagRow>(
      `select ${LEADING} from tag t where t.network_id = $1 and t.code = any($2::text[]) and ($3::uuid is null or t.incident_id = $3) order by t.code`,
      [this.networkId, codes, incidentId],
    );
    return rows.map(toRecord);
  }

  async tie(code: string, to: TagTarget, deed: TagDeed): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'tag_tie',
      text: `update tag set item_id = $3, container_id = $4, place_kind = $5, place_id = $6, person_id = $7, tied_at = $8, tied_by = $9 where network_id = $1 and code = $2 and ${FREE}`,
      values: [this.networkId, code, to.itemId ?? null, to.containerId ?? null, to.place?.kind ?? null, to.place?.id ?? null, to.personId ?? null, at(deed.nowMs), deed.actorId],
    });
    return rowCount === 1;
  }

  async replace(code: string, byCode: string, reason: string, deed: TagDeed): Promise<boolean> {
    // First the old one: a thing has one live tag at every moment.
    const { rows } = await this.client.query<TagRow>(
      `update tag set retired_at = $3, retired_by = $4, replaced_by = $5, replaced_reason = $6 where network_id = $1 and code = $2 and retired_at is null and not (${FREE}) returning ${COLUMNS}`,
      [this.networkId, code, at(deed.nowMs), deed.actorId, byCode, reason],
    );
    const old = rows[0] && toRecord(rows[0]);
    if (!old) return false;
    const { itemId, containerId, place, personId } = old;
    const tied = await this.tie(byCode, { itemId: itemId ?? undefined, containerId: containerId ?? undefined, place: place ?? undefined, personId: personId ?? undefined }, deed);
    if (itemId !== null) await this.client.query('update item set tag_code = $3 where network_id = $1 and id = $2', [this.networkId, itemId, byCode]);
    if (containerId !== null) await this.client.query('update container set tag_code = $3 where network_id = $1 and id = $2', [this.networkId, containerId, byCode]);
    return tied;
  }

  async swap(code: string, otherCode: string, deed: TagDeed): Promise<boolean> {
    const values = [this.networkId, code, otherCode];
    const { rows } = await this.client.query<{ code: string; id: string }>(
      'select t.code, i.id from tag t join item i on i.network_id = t.network_id and i.id = t.item_id and i.tag_code = t.code where t.network_id = $1 and t.code in ($2, $3) and t.retired_at is null',
      values,
    );
    const [item, other] = [code, otherCode].map((each) => rows.find((row) => row.code === each)?.id);
    if (item === undefined || other === undefined) return false;
    // One at a time: an item has one live tag, and a code stands on one item, at every moment.
    const tie = (which: string, itemId: string | null) => this.client.query('update tag set item_id = $3, tied_at = $4, tied_by = $5 where network_id = $1 and code = $2', [this.networkId, which, itemId, at(deed.nowMs), deed.actorId]);
    const call = (itemId: string, by: string) => this.client.query('update item set tag_code = $3 where network_id = $1 and id = $2', [this.networkId, itemId, by]);
    await tie(code, null);
    await tie(otherCode, item);
    await tie(code, other);
    await call(item, `swapped ${item}`);
    await call(other, code);
    await call(item, otherCode);
    return true;
  }
}
