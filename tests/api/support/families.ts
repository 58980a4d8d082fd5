/** A family with its things, its questions and its page. */
import { randomUUID } from 'node:crypto';
import supertest from 'supertest';
import { runFamilyLook, runFamilyMessage, runFamilyNews, type CallContext, type MessageParts } from '#application';
import { newId } from '#platform';
import { takeInTestItem, type HouseholdOnTest, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';

export interface Family extends HouseholdOnTest {
  name: string;
}

let counter = 0;

/** A household with a contact of its own. */
export async function family(network: TestNetwork, incident: IncidentOnTest, change: { language?: 'en' | 'es'; email?: string; phone?: string; consents?: object[] } = {}): Promise<Family> {
  counter += 1;
  const code = `FAM-${process.pid}-${counter}`;
  const name = `Contact ${randomUUID()}`;
  const body = { code, language: change.language ?? 'en', contact: { name, phone: change.phone ?? '', email: change.email ?? `family-${counter}@families.example`, address: '' }, consents: change.consents ?? [] };
  return { id: (await network.post(`/v1/incidents/${incident.id}/households`, body).expect(201)).body.id, code, name };
}

export const thingOf = takeInTestItem;

export interface LinkOnTest {
  id: string;
  path: string;
  pickUpCode: string;
}

export async function linkOf(network: TestNetwork, household: { id: string }, body: object = {}): Promise<LinkOnTest> {
  return (await network.post(`/v1/households/${household.id}/status-links`, body).expect(201)).body;
}

export const openPage = (server: TestServer, path: string, query = '') => supertest(server.url).get(`${path}${query}`);
export const sendForm = (server: TestServer, path: string, fields: Record<string, string>) => supertest(server.url).post(path).type('form').send(fields);

export async function openQuestions(network: TestNetwork, incident: { id: string }, householdId: string) {
  const { body } = await network.get(`/v1/incidents/${incident.id}/owner-questions?limit=200`).expect(200);
  return (body.items as { id: string; householdId: string; itemId: string; kind: string; state: string; askedBy: string; deadlineAt: string; answer: string | null; lateAnswer: string | null; toldAt: string | null }[]).filter((question) => question.householdId === householdId);
}

export async function mattersOf(network: TestNetwork, incident: { id: string }, householdId: string, settled = false) {
  const { body } = await network.get(`/v1/incidents/${incident.id}/family-matters?limit=200&settled=${settled}`).expect(200);
  return (body.items as { id: string; householdId: string; kind: string; itemId: string | null; step: string | null; advice: string; messageId: string | null; questionId: string | null; settlement: string }[]).filter((matter) => matter.householdId === householdId);
}

function contextOf(networkId: string): CallContext {
  return { networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' };
}

async function rowsOf(server: TestServer, networkId: string, kind: string, ahead = true) {
  const { rows } = await server.admin.query<{ id: string; incident_id: string; kind: 'family.look'; subject_id: string; traceparent: string }>('select id, incident_id, kind, subject_id, traceparent from outbox where network_id = $1 and kind = $2 and done_at is null and ($3 or not_before is null or not_before <= clock_timestamp()) order by id', [networkId, kind, ahead]);
  return rows.map((row) => ({ id: row.id, incidentId: row.incident_id, kind: row.kind, subjectId: row.subject_id, traceparent: row.traceparent }));
}

/** The worker's looks at questions that wait, at the time of the server's clock; those that lie ahead as well unless told otherwise. */
export async function lookAtFamilies(server: TestServer, networkId: string, ahead = true): Promise<void> {
  for (const row of await rowsOf(server, networkId, 'family.look', ahead)) await runFamilyLook(server.unitOfWork, row, contextOf(networkId), { nowMs: server.clock.nowMs(), newId: () => newId() });
}

/** The worker's looks at what families are to be told; those that lie ahead as well with `ahead`. Answers how many there were. */
export async function lookAtNews(server: TestServer, networkId: string, ahead = false): Promise<number> {
  const rows = await rowsOf(server, networkId, 'family.news', ahead);
  for (const row of rows) await runFamilyNews(server.unitOfWork, { ...row, kind: 'family.news' }, contextOf(networkId), { nowMs: server.clock.nowMs(), newId: () => newId() });
  return rows.length;
}

/** The worker's part of every message whose row is open, however far ahead, so many at once. Answers the outcomes; `dies` counts a sender that throws as one. */
export async function sendMessages(server: TestServer, networkId: string, parts: MessageParts, { atOnce = 4, dies = false } = {}): Promise<string[]> {
  const rows = await rowsOf(server, networkId, 'family.message');
  const outcomes: string[] = [];
  const work = async (): Promise<void> => {
    for (let row = rows.shift(); row !== undefined; row = rows.shift()) {
      const run = runFamilyMessage(server.unitOfWork, row, contextOf(networkId), { nowMs: server.clock.nowMs(), newId: () => newId() }, parts);
      outcomes.push(await (dies ? run.catch(() => 'died') : run));
    }
  };
  await Promise.all(Array.from({ length: atOnce }, work));
  return outcomes;
}
