import type { AuditEntry, AuditStore, NotedAct } from '#application';
import type { Client } from '../pool.js';

interface AuditRow {
  id: string;
  principal_id: string;
  operation: string;
  subject_kind: string;
  subject_id: string | null;
  outcome: AuditEntry['outcome'];
  request_id: string;
  at: Date;
}

export class PgAuditStore implements AuditStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly incidentLimit: string | null,
  ) {}

  noteLook(look: NotedAct): Promise<void> {
    return note(this.client, this.networkId, look, 'read');
  }

  noteDone(done: NotedAct): Promise<void> {
    return note(this.client, this.networkId, done, 'done');
  }

  async page(limit: number, beforeId: string | null): Promise<AuditEntry[]> {
    const { rows } = await this.client.query<AuditRow>({
      name: 'audit_page',
      text: `select a.id, a.principal_id, a.operation, a.subject_kind, a.subject_id, a.outcome, a.request_id, a.at
             from audit_entry a
             where a.network_id = $1 and ($3::uuid is null or a.id < $3)
               and ($4::uuid is null or a.principal_id in (select k.id from api_key k where k.network_id = $1 and k.limited_to_incident_id = $4))
             order by a.id desc limit $2`,
      values: [this.networkId, limit, beforeId, this.incidentLimit],
    });
    return rows.map((row) => ({
      id: row.id, principalId: row.principal_id, operation: row.operation, subjectKind: row.subject_kind, subjectId: row.subject_id, outcome: row.outcome, requestId: row.request_id, atMs: row.at.getTime(),
    }));
  }
}

async function note(client: Client, networkId: string, act: NotedAct, outcome: AuditEntry['outcome']): Promise<void> {
  await client.query({
    name: 'audit_note',
    text: `insert into audit_entry (network_id, principal_id, operation, subject_kind, subject_id, outcome, request_id) values ($1, $2, $3, $4, $5, $6, $7)`,
    values: [networkId, act.principalId, act.operation, act.subjectKind, act.subjectId, outcome, act.requestId],
  });
}
