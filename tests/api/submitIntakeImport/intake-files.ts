/** Shared by the specs of intake files: sending one, and doing the worker's part of it on the real database. */
import { runIntakeImport, type UnitOfWork } from '#application';
import { workerContext } from '#messaging';
import { newId } from '#platform';
import type { IncidentOnTest, TestClient, TestNetwork, TestServer } from '#testing';

export const CSV = { 'content-type': 'text/csv' };
export const NDJSON = { 'content-type': 'application/x-ndjson' };

/** Sends a file for a site; the answer is a supertest request. */
export function submit(client: TestClient, incident: IncidentOnTest, content: string | Buffer, headers: Record<string, string> = CSV, siteId = incident.site()) {
  return client.post(`/v1/incidents/${incident.id}/intake-imports?siteId=${siteId}&fileName=door-slips.csv`, content, headers);
}

/** Reserves item tags through the API; printed form. */
export async function reserve(network: TestClient, incident: IncidentOnTest, count: number): Promise<string[]> {
  const { body } = await network.post(`/v1/incidents/${incident.id}/tag-blocks`, { kind: 'item', count, reservedFor: 'Slips of the doorway' }).expect(201);
  return body.tags as string[];
}

/** The outbox rows of an import. */
export async function outboxOf(server: TestServer, importId: string): Promise<{ id: string; doneAt: Date | null }[]> {
  const { rows } = await server.admin.query<{ id: string; done_at: Date | null }>("select id, done_at from outbox where subject_id = $1 and kind = 'intake_import.submitted' order by created_at", [importId]);
  return rows.map((row) => ({ id: row.id, doneAt: row.done_at }));
}

/** Does what the worker does for the newest outbox row of an import. */
export async function work(server: TestServer, network: TestNetwork, importId: string, unitOfWork: UnitOfWork = server.unitOfWork): Promise<void> {
  const message = (await outboxOf(server, importId)).at(-1);
  if (!message) throw new Error('no outbox row for this import');
  await runIntakeImport(unitOfWork, { id: message.id, subjectId: importId }, workerContext(network.networkId, 'test', ''), { nowMs: server.clock.nowMs(), newId: () => newId() });
}

/** Sends a file and works it through; answers the id of the import. */
export async function take(server: TestServer, network: TestNetwork, incident: IncidentOnTest, content: string | Buffer, headers: Record<string, string> = CSV): Promise<string> {
  const { body } = await submit(network, incident, content, headers).expect(201);
  await work(server, network, body.id as string);
  return body.id as string;
}

/** One row as the API answers it. */
export interface Row {
  rowNumber: number;
  outcome: string;
  itemId: string | null;
  remarks: { kind: string; column: string; code: string; text: string }[];
}

/** The rows of an import, at most 200. */
export async function rowsOf(network: TestNetwork, importId: string): Promise<Row[]> {
  const { body } = await network.get(`/v1/intake-imports/${importId}/rows?limit=200`).expect(200);
  return body.items as Row[];
}

/** Refusals of a row as column:code. */
export const refusalsOf = (row: Row | undefined) => row?.remarks.filter(({ kind }) => kind === 'refusal').map(({ column, code }) => `${column}:${code}`);

/** How many of everything the network has. */
export async function counts(server: TestServer, network: TestNetwork): Promise<Record<string, number>> {
  const tables = ['item', 'household', 'household_contact', 'consent', 'custody_event', 'assessment', 'triage_result', 'intake_import_row'];
  const { rows } = await server.admin.query<Record<string, number>>(`select ${tables.map((table) => `(select count(*)::int from ${table} where network_id = $1) as ${table}`).join(', ')}`, [network.networkId]);
  return rows[0] ?? {};
}
