import type { ManifestExceptionRecord, ManifestLine, ManifestRecord, ManifestState, ManifestStore } from '#application';
import type { Keeper } from '#custody';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface ManifestRow {
  id: string;
  incident_id: string;
  carrier_kind: 'vehicle' | 'container';
  carrier_id: string;
  from_site_id: string;
  to_site_id: string;
  person_id: string;
  state: ManifestState;
  created_at: Date;
  departed_at: Date | null;
  departed_by: string | null;
  arrived_at: Date | null;
  arrived_by: string | null;
  version: number;
}

interface LineRow {
  item_id: string | null;
  container_id: string | null;
  thing_id: string;
  tag_code: string;
  expected: boolean;
  loaded_at: Date | null;
  loaded_by: string | null;
  unloaded_at: Date | null;
  unloaded_by: string | null;
  keeper_kind: Keeper['kind'] | null;
  keeper_id: string | null;
}

interface ExceptionRow {
  id: string;
  incident_id: string;
  manifest_id: string;
  item_id: string | null;
  container_id: string | null;
  tag_code: string;
  kind: ManifestExceptionRecord['kind'];
  reason: string;
  owner_id: string;
  opened_at: Date;
  settled_at: Date | null;
  settled_by: string | null;
  settlement: string;
}

function toLine(row: LineRow): ManifestLine {
  return {
    thing: row.item_id === null ? 'container' : 'item', id: row.thing_id, tagCode: row.tag_code, expected: row.expected, loadedAtMs: msOrNull(row.loaded_at), loadedBy: row.loaded_by,
    unloadedAtMs: msOrNull(row.unloaded_at), unloadedBy: row.unloaded_by, keeper: row.keeper_kind === null || row.keeper_id === null ? null : { kind: row.keeper_kind, id: row.keeper_id },
  };
}

function toException(row: ExceptionRow): ManifestExceptionRecord {
  const { item_id: itemId, container_id: containerId } = row;
  return {
    id: row.id, incidentId: row.incident_id, manifestId: row.manifest_id, thing: itemId === null ? 'container' : 'item', thingId: itemId ?? containerId ?? '', tagCode: row.tag_code, kind: row.kind,
    reason: row.reason, ownerId: row.owner_id, openedAtMs: row.opened_at.getTime(), settledAtMs: msOrNull(row.settled_at), settledBy: row.settled_by, settlement: row.settlement,
  };
}

const EXCEPTIONS = `select e.*, coalesce(i.tag_code, c.tag_code) as tag_code from manifest_exception e
  left join item i on i.network_id = e.network_id and i.id = e.item_id left join container c on c.network_id = e.network_id and c.id = e.container_id`;

export class PgManifestStore implements ManifestStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(manifest: ManifestRecord): Promise<void> {
    await this.client.query({
      name: 'manifest_insert',
      text: `insert into manifest (network_id, incident_id, id, carrier_kind, carrier_id, from_site_id, to_site_id, person_id, state, created_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      values: [this.networkId, manifest.incidentId, manifest.id, manifest.carrier.kind, manifest.carrier.id, manifest.fromSiteId, manifest.toSiteId, manifest.personId, manifest.state, at(manifest.createdAtMs)],
    });
    await this.saveLines(manifest);
  }

  async thingsOn(carrier: Keeper): Promise<Pick<ManifestLine, 'thing' | 'id' | 'tagCode'>[]> {
    const { rows } = await this.client.query<{ thing: ManifestLine['thing']; id: string; tag_code: string }>({
      name: 'manifest_things_on',
      text: `select 'item' as thing, id, tag_code from item where network_id = $1 and keeper_kind = $2 and keeper_id = $3
             union all select 'container', id, tag_code from container where network_id = $1 and keeper_kind = $2 and keeper_id = $3 order by 2`,
      values: [this.networkId, carrier.kind, carrier.id],
    });
    return rows.map(({ thing, id, tag_code: tagCode }) => ({ thing, id, tagCode }));
  }

  private async saveLines({ id, incidentId, lines }: ManifestRecord): Promise<void> {
    if (lines.length === 0) return;
    const idsOf = (thing: ManifestLine['thing']) => lines.map((line) => (line.thing === thing ? line.id : null));
    await this.client.query({
      name: 'manifest_lines_save',
      text: `insert into manifest_line (network_id, incident_id, manifest_id, item_id, container_id, expected, loaded_at, loaded_by, unloaded_at, unloaded_by)
             select $1, $2, $3, l.* from unnest($4::uuid[], $5::uuid[], $6::boolean[], $7::timestamptz[], $8::uuid[], $9::timestamptz[], $10::uuid[]) l
             on conflict (network_id, manifest_id, thing_id) do update set loaded_at = excluded.loaded_at, loaded_by = excluded.loaded_by, unloaded_at = excluded.unloaded_at, unloaded_by = excluded.unloaded_by`,
      values: [this.networkId, incidentId, id, idsOf('item'), idsOf('container'), lines.map(({ expected }) => expected), lines.map((line) => at(line.loadedAtMs)), lines.map(({ loadedBy }) => loadedBy),
        lines.map((line) => at(line.unloadedAtMs)), lines.map(({ unloadedBy }) => unloadedBy)],
    });
  }

  find(manifestId: string): Promise<ManifestRecord | null> {
    return this.load(manifestId, false);
  }

  lock(manifestId: string): Promise<ManifestRecord | null> {
    return this.load(manifestId, true);
  }

  private async load(manifestId: string, lock: boolean): Promise<ManifestRecord | null> {
    const { rows } = await this.client.query<ManifestRow>({
      name: lock ? 'manifest_lock' : 'manifest_find',
      text: `select * from manifest where network_id = $1 and id = $2 ${lock ? 'for no key update' : ''}`,
      values: [this.networkId, manifestId],
    });
    const row = rows[0];
    if (!row) return null;
    const { rows: lines } = await this.client.query<LineRow>({
      name: 'manifest_lines',
      text: `select l.item_id, l.container_id, l.thing_id, coalesce(i.tag_code, c.tag_code) as tag_code, l.expected, l.loaded_at, l.loaded_by, l.unloaded_at, l.unloaded_by,
                    coalesce(i.keeper_kind, c.keeper_kind) as keeper_kind, coalesce(i.keeper_id, c.keeper_id) as keeper_id
             from manifest_line l left join item i on i.network_id = l.network_id and i.id = l.item_id left join container c on c.network_id = l.network_id and c.id = l.container_id
             where l.network_id = $1 and l.manifest_id = $2 order by l.thing_id`,
      values: [this.networkId, manifestId],
    });
    return {
      id: row.id, incidentId: row.incident_id, carrier: { kind: row.carrier_kind, id: row.carrier_id }, fromSiteId: row.from_site_id, toSiteId: row.to_site_id, personId: row.person_id, state: row.state,
      createdAtMs: row.created_at.getTime(), departedAtMs: msOrNull(row.departed_at), departedBy: row.departed_by, arrivedAtMs: msOrNull(row.arrived_at), arrivedBy: row.arrived_by, version: row.version, lines: lines.map(toLine),
    };
  }

  async loadingOf(carrier: Keeper): Promise<string | null> {
    const { rows } = await this.client.query<{ id: string }>(`select id from manifest where network_id = $1 and carrier_kind = $2 and carrier_id = $3 and state = 'loading'`, [this.networkId, carrier.kind, carrier.id]);
    return rows[0]?.id ?? null;
  }

  async save(manifest: ManifestRecord): Promise<number> {
    await this.saveLines(manifest);
    const { rows } = await this.client.query<{ version: number }>({
      name: 'manifest_save',
      text: `update manifest set state = $3, departed_at = $4, departed_by = $5, arrived_at = $6, arrived_by = $7, version = version + 1 where network_id = $1 and id = $2 returning version`,
      values: [this.networkId, manifest.id, manifest.state, at(manifest.departedAtMs), manifest.departedBy, at(manifest.arrivedAtMs), manifest.arrivedBy],
    });
    return rows[0]?.version ?? manifest.version;
  }

  async insertExceptions(exceptions: readonly ManifestExceptionRecord[]): Promise<void> {
    for (const one of exceptions) {
      await this.client.query({
        name: 'manifest_exception_insert',
        text: `insert into manifest_exception (network_id, incident_id, id, manifest_id, item_id, container_id, kind, reason, owner_id, opened_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
        values: [this.networkId, one.incidentId, one.id, one.manifestId, one.thing === 'item' ? one.thingId : null, one.thing === 'container' ? one.thingId : null, one.kind, one.reason, one.ownerId, at(one.openedAtMs)],
      });
    }
  }

  async exceptionsOf(manifestId: string): Promise<ManifestExceptionRecord[]> {
    const { rows } = await this.client.query<ExceptionRow>({ name: 'manifest_exceptions', text: `${EXCEPTIONS} where e.network_id = $1 and e.manifest_id = $2 order by e.id`, values: [this.networkId, manifestId] });
    return rows.map(toException);
  }

  async lockException(exceptionId: string): Promise<ManifestExceptionRecord | null> {
    const { rows } = await this.client.query<ExceptionRow>({ name: 'manifest_exception_lock', text: `${EXCEPTIONS} where e.network_id = $1 and e.id = $2 for no key update of e`, values: [this.networkId, exceptionId] });
    return rows[0] ? toException(rows[0]) : null;
  }

  async settle({ id, settledAtMs, settledBy, settlement }: ManifestExceptionRecord): Promise<void> {
    await this.client.query('update manifest_exception set settled_at = $3, settled_by = $4, settlement = $5 where network_id = $1 and id = $2', [this.networkId, id, at(settledAtMs), settledBy, settlement]);
  }

  async exceptionsPage(incidentId: string, onlyOpen: boolean, limit: number, after: { open: boolean; id: string } | null): Promise<ManifestExceptionRecord[]> {
    const { rows } = await this.client.query<ExceptionRow>(
      `${EXCEPTIONS} where e.network_id = $1 and e.incident_id = $2 and (not $3::boolean or e.settled_at is null) and ($5::uuid is null or ((e.settled_at is not null), e.id) > ($4::boolean, $5))
       order by (e.settled_at is not null), e.id limit $6`,
      [this.networkId, incidentId, onlyOpen, after === null ? null : !after.open, after?.id ?? null, limit],
    );
    return rows.map(toException);
  }
}
