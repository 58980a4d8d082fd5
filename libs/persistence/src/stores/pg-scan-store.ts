import type { ScanProblem, ScanResult, ScanStore, SightingRecord, SightingVerdict, ScanVerdict } from '#application';
import type { CustodyEventKind, Keeper } from '#custody';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface ScanRow {
  id: string;
  fingerprint: string;
  item_id: string | null;
  container_id: string | null;
  place_kind: Keeper['kind'] | null;
  place_id: string | null;
  verdict: ScanVerdict;
  event_kind: CustodyEventKind | null;
  event_seq: number | null;
  problem: ScanProblem | null;
}

interface SightingRow {
  id: string;
  incident_id: string;
  item_id: string | null;
  container_id: string | null;
  place_kind: Keeper['kind'];
  place_id: string;
  seen_at: Date;
  recorded_at: Date;
  person_id: string | null;
  actor_id: string;
  verdict: SightingVerdict;
  at_seq: number;
  note: string;
}

function toSighting(row: SightingRow): SightingRecord {
  return {
    id: row.id, incidentId: row.incident_id, thing: row.item_id === null ? { containerId: row.container_id ?? '' } : { itemId: row.item_id }, place: { kind: row.place_kind, id: row.place_id },
    seenAtMs: row.seen_at.getTime(), recordedAtMs: row.recorded_at.getTime(), personId: row.person_id, actorId: row.actor_id, verdict: row.verdict, atSeq: row.at_seq, note: row.note,
  };
}

export class PgScanStore implements ScanStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async claim(incidentId: string, scans: Parameters<ScanStore['claim']>[1], deed: { actorId: string; nowMs: number }): Promise<ReadonlySet<string>> {
    const rows = scans.map(({ fingerprint, ...said }) => ({ id: said.scanId, fingerprint, seen_at: at(said.seenAtMs).toISOString(), said }));
    const taken = await this.client.query<{ id: string }>({
      name: 'scan_claim',
      // In one order for everybody, so that two who send the same scans wait for each other and never in a circle.
      text: `insert into scan (network_id, incident_id, id, fingerprint, seen_at, said, actor_id, recorded_at)
             select $1, $2, s.id, s.fingerprint, s.seen_at, s.said, $4, $5 from jsonb_to_recordset($3::jsonb) as s (id uuid, fingerprint text, seen_at timestamptz, said jsonb) order by s.id
             on conflict do nothing returning id`,
      values: [this.networkId, incidentId, JSON.stringify(rows), deed.actorId, at(deed.nowMs)],
    });
    return new Set(taken.rows.map((row) => row.id));
  }

  async earlier(incidentId: string, scanIds: readonly string[]): Promise<(ScanResult & { fingerprint: string })[]> {
    const { rows } = await this.client.query<ScanRow>({
      name: 'scan_earlier',
      text: 'select id, fingerprint, item_id, container_id, place_kind, place_id, verdict, event_kind, event_seq, problem from scan where network_id = $1 and incident_id = $2 and id = any($3::uuid[]) and verdict is not null order by id',
      values: [this.networkId, incidentId, scanIds],
    });
    return rows.map((row) => ({
      scanId: row.id, fingerprint: row.fingerprint, verdict: row.verdict, itemId: row.item_id, containerId: row.container_id,
      place: row.place_kind === null || row.place_id === null ? null : { kind: row.place_kind, id: row.place_id },
      event: row.event_kind === null || row.event_seq === null ? null : { kind: row.event_kind, seq: row.event_seq }, problem: row.problem,
    }));
  }

  async settle(incidentId: string, results: readonly ScanResult[]): Promise<void> {
    const rows = results.map(({ scanId, verdict, itemId, containerId, place, event, problem }) => ({
      id: scanId, verdict, item_id: itemId, container_id: containerId, place_kind: place?.kind ?? null, place_id: place?.id ?? null, event_kind: event?.kind ?? null, event_seq: event?.seq ?? null, problem,
    }));
    await this.client.query({
      name: 'scan_settle',
      text: `update scan set verdict = s.verdict, item_id = s.item_id, container_id = s.container_id, place_kind = s.place_kind, place_id = s.place_id, event_kind = s.event_kind, event_seq = s.event_seq, problem = s.problem
             from jsonb_to_recordset($3::jsonb) as s (id uuid, verdict text, item_id uuid, container_id uuid, place_kind text, place_id uuid, event_kind text, event_seq integer, problem jsonb)
             where scan.network_id = $1 and scan.incident_id = $2 and scan.id = s.id and scan.verdict is null`,
      values: [this.networkId, incidentId, JSON.stringify(rows)],
    });
  }

  async sight(sighting: SightingRecord): Promise<void> {
    const [itemId, containerId] = 'itemId' in sighting.thing ? [sighting.thing.itemId, null] : [null, sighting.thing.containerId];
    await this.client.query({
      name: 'sighting_insert',
      text: `insert into sighting (network_id, incident_id, id, item_id, container_id, place_kind, place_id, seen_at, recorded_at, person_id, actor_id, verdict, at_seq, note)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)`,
      values: [
        this.networkId, sighting.incidentId, sighting.id, itemId, containerId, sighting.place.kind, sighting.place.id, at(sighting.seenAtMs), at(sighting.recordedAtMs), sighting.personId, sighting.actorId,
        sighting.verdict, sighting.atSeq, sighting.note,
      ],
    });
    const table = itemId === null ? 'container' : 'item';
    await this.client.query({
      name: `seen_${table}`,
      text: `update ${table} set last_seen_at = least($3::timestamptz, $4::timestamptz), version = version + 1${table === 'item' ? ', updated_at = $4' : ''}
             where network_id = $1 and id = $2 and last_seen_at < least($3::timestamptz, $4::timestamptz)`,
      values: [this.networkId, itemId ?? containerId, at(sighting.seenAtMs), at(sighting.recordedAtMs)],
    });
  }

  async sightingsOf(thing: SightingRecord['thing'], limit: number, afterId: string | null): Promise<SightingRecord[]> {
    const [column, id] = 'itemId' in thing ? ['item_id', thing.itemId] : ['container_id', thing.containerId];
    const { rows } = await this.client.query<SightingRow>({
      name: `sightings_by_${column}`,
      text: `select * from sighting where network_id = $1 and ${column} = $2 and ($3::uuid is null or id > $3) order by id limit $4`,
      values: [this.networkId, id, afterId, limit],
    });
    return rows.map(toSighting);
  }
}
