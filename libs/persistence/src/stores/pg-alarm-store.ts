import type { AlarmEvidence, AlarmFilter, AlarmKind, AlarmRecord, AlarmSeverity, AlarmStore, AlarmSubjectKind, AlarmView, OpenAlarm } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface AlarmRow {
  id: string;
  incident_id: string;
  kind: AlarmKind;
  subject_kind: AlarmSubjectKind;
  subject_id: string;
  severity: AlarmSeverity;
  raised_at: Date;
  evidence: AlarmEvidence;
  present: AlarmEvidence;
  present_at: Date;
  acknowledged_at: Date | null;
  acknowledged_by: string | null;
  acknowledged_note: string | null;
  acknowledged_present: AlarmEvidence | null;
  cleared_at: Date | null;
  clearing: AlarmEvidence | null;
  version: number;
  subject_code: string | null;
  subject_name: string | null;
  acknowledged_by_name: string | null;
}

const SELECT = `
  select a.id, a.incident_id, a.kind, a.subject_kind, a.subject_id, a.severity, a.raised_at, a.evidence, a.present, a.present_at, a.acknowledged_at, a.acknowledged_by, a.acknowledged_note, a.acknowledged_present,
         a.cleared_at, a.clearing, a.version, coalesce(r.code, d.code, f.code) as subject_code, coalesce(r.name, d.name, f.name, n.name) as subject_name, p.display_name as acknowledged_by_name
  from alarm a
  left join drying_room r on a.subject_kind = 'drying-room' and r.network_id = a.network_id and r.id = a.subject_id
  left join dehumidifier d on a.subject_kind = 'dehumidifier' and d.network_id = a.network_id and d.id = a.subject_id
  left join freezer f on a.subject_kind = 'freezer' and f.network_id = a.network_id and f.id = a.subject_id
  left join incident n on a.subject_kind = 'incident' and n.network_id = a.network_id and n.id = a.subject_id
  left join person p on p.network_id = a.network_id and p.id = a.acknowledged_by`;

export class PgAlarmStore implements AlarmStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async open(subjectIds: readonly string[]): Promise<OpenAlarm[]> {
    const { rows } = await this.client.query<Pick<AlarmRow, 'id' | 'kind' | 'subject_kind' | 'subject_id' | 'severity'>>({
      name: 'alarms_open',
      text: 'select id, kind, subject_kind, subject_id, severity from alarm where network_id = $1 and subject_id = any($2::uuid[]) and cleared_at is null order by id',
      values: [this.networkId, subjectIds],
    });
    return rows.map((row) => ({ id: row.id, kind: row.kind, subject: { kind: row.subject_kind, id: row.subject_id }, severity: row.severity }));
  }

  async raise(alarm: Parameters<AlarmStore['raise']>[0]): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'alarm_raise',
      text: `insert into alarm (network_id, incident_id, id, kind, subject_kind, subject_id, severity, raised_at, evidence, present, present_at)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $9, $8) on conflict (network_id, subject_id, kind) where cleared_at is null do nothing`,
      values: [this.networkId, alarm.incidentId, alarm.id, alarm.kind, alarm.subject.kind, alarm.subject.id, alarm.severity, at(alarm.raisedAtMs), JSON.stringify(alarm.evidence)],
    });
    return rowCount === 1;
  }

  async renew(id: string, severity: AlarmSeverity, present: AlarmEvidence, atMs: number): Promise<void> {
    await this.client.query({
      name: 'alarm_renew',
      text: 'update alarm set severity = $3, present = $4, present_at = $5 where network_id = $1 and id = $2 and cleared_at is null',
      values: [this.networkId, id, severity, JSON.stringify(present), at(atMs)],
    });
  }

  async clear(id: string, evidence: AlarmEvidence, atMs: number): Promise<void> {
    await this.client.query({
      name: 'alarm_clear',
      text: 'update alarm set cleared_at = $4, clearing = $3, version = version + 1 where network_id = $1 and id = $2 and cleared_at is null',
      values: [this.networkId, id, JSON.stringify(evidence), at(atMs)],
    });
  }

  async find(id: string): Promise<AlarmView | null> {
    const { rows } = await this.client.query<AlarmRow>({ name: 'alarm_find', text: `${SELECT} where a.network_id = $1 and a.id = $2`, values: [this.networkId, id] });
    return rows[0] ? toView(rows[0]) : null;
  }

  async acknowledge(id: string, acknowledged: { atMs: number; by: string; note: string }): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'alarm_acknowledge',
      text: `update alarm set acknowledged_at = $3, acknowledged_by = $4, acknowledged_note = $5, acknowledged_present = present, version = version + 1
             where network_id = $1 and id = $2 and acknowledged_at is null`,
      values: [this.networkId, id, at(acknowledged.atMs), acknowledged.by, acknowledged.note],
    });
    return rowCount === 1;
  }

  async page(incidentId: string, filter: AlarmFilter, limit: number, beforeId: string | null): Promise<AlarmView[]> {
    const { rows } = await this.client.query<AlarmRow>(
      `${SELECT} where a.network_id = $1 and a.incident_id = $2 and ($4::uuid is null or a.id < $4) and ($5::text = 'all' or (a.cleared_at is null) = ($5 = 'open'))
          and ($6::text is null or a.kind = $6) and ($7::uuid is null or a.subject_id = $7) order by a.id desc limit $3`,
      [this.networkId, incidentId, limit, beforeId, filter.state, filter.kind ?? null, filter.subjectId ?? null],
    );
    return rows.map(toView);
  }

  async countOpen(subjectIds: readonly string[]): Promise<number> {
    const { rows } = await this.client.query<{ n: number }>({ name: 'alarms_count', text: 'select count(*)::int as n from alarm where network_id = $1 and subject_id = any($2::uuid[]) and cleared_at is null', values: [this.networkId, subjectIds] });
    return rows[0]?.n ?? 0;
  }
}

function toView(row: AlarmRow): AlarmView {
  return {
    ...toRecord(row), subjectCode: row.subject_code ?? '', subjectName: row.subject_name ?? '', acknowledgedByName: row.acknowledged_by_name,
  };
}

function toRecord(row: AlarmRow): AlarmRecord {
  const acknowledged = row.acknowledged_at === null || row.acknowledged_by === null || row.acknowledged_present === null ? null
    : { atMs: row.acknowledged_at.getTime(), by: row.acknowledged_by, note: row.acknowledged_note ?? '', present: row.acknowledged_present };
  return {
    id: row.id, incidentId: row.incident_id, kind: row.kind, subject: { kind: row.subject_kind, id: row.subject_id }, severity: row.severity, raisedAtMs: row.raised_at.getTime(), evidence: row.evidence,
    present: row.present, presentAtMs: row.present_at.getTime(), acknowledged, cleared: row.cleared_at === null || row.clearing === null ? null : { atMs: row.cleared_at.getTime(), evidence: row.clearing }, version: row.version,
  };
}
