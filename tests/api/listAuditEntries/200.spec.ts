import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestClient, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

interface Entry {
  id: string;
  keyId: string;
  operation: string;
  subjectKind: string;
  subjectId: string | null;
  outcome: string;
  requestId: string;
  at: string;
}

const entriesOf = async (client: TestClient): Promise<Entry[]> => (await client.get('/v1/audit-entries?limit=200').expect(200)).body.items;
const keyIdOf = async (key: string) => (await server.admin.query<{ id: string }>('select id from api_key where prefix = $1', [key.split('_')[1]])).rows[0]?.id;
const household = () => ({ code: `HH-${randomUUID().slice(0, 8)}`, contact: { name: 'A name that no log may hold', phone: '+00 123' }, consents: [{ scope: 'treat', given: true, manner: 'spoken', note: '' }] });

describe('listAuditEntries answers 200', () => {
  test('with who did what, on what, in which request and when, newest first, and nothing of what was sent or answered', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const other = network.as(await network.newKey());
    const sinceMs = Date.now();
    const taken = await other.post(`/v1/incidents/${incident.id}/households`, household()).expect(201);
    const [newest, before] = await entriesOf(network);
    expect(newest).toEqual({
      id: expect.any(String), keyId: await keyIdOf(other.key), operation: 'takeInHousehold', subjectKind: 'households', subjectId: taken.body.id, outcome: 'done', requestId: taken.headers['x-request-id'], at: expect.any(String),
    });
    // Real time, although the clock of the test stands at another day.
    expect(Math.abs(Date.parse(newest?.at ?? '') - sinceMs)).toBeLessThan(3_600_000);
    expect(before).toMatchObject({ operation: 'registerIncident', subjectKind: 'incidents', subjectId: incident.id, keyId: await keyIdOf(network.key) });
    const { rows } = await server.admin.query<{ text: string }>('select a::text as text from audit_entry a where network_id = $1', [network.networkId]);
    expect(rows.some(({ text }) => /A name that no log may hold|\+00 123/.test(text))).toBe(false);
  });

  test('a command that was sent twice is listed once, and one that was refused is not listed', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const body = household();
    const key = { 'idempotency-key': randomUUID() };
    const first = await network.post(`/v1/incidents/${incident.id}/households`, body, key).expect(201);
    await network.post(`/v1/incidents/${incident.id}/households`, body, key).expect(201);
    await network.post(`/v1/incidents/${incident.id}/households`, body).expect(409);
    await network.post(`/v1/incidents/${incident.id}/households`, { ...body, code: '' }).expect(400);
    await network.patch(`/v1/incidents/${incident.id}`, { place: 'Upper bank' }, { 'if-match': '"9"' }).expect(412);
    await network.as(await network.newKey({ scopes: ['keys:manage'] })).post(`/v1/incidents/${incident.id}/households`, household()).expect(403);
    const entries = await entriesOf(network);
    expect(entries.filter(({ operation }) => operation !== 'registerIncident').map(({ operation, subjectId, requestId }) => [operation, subjectId, requestId])).toEqual([['takeInHousehold', first.body.id, first.headers['x-request-id']]]);
  });

  test('pages of one entry show every entry once', async () => {
    const network = await server.network();
    const ids = [];
    for (let n = 0; n < 3; n += 1) ids.unshift((await network.incident()).id);
    const seen: (string | null)[] = [];
    let cursor = '';
    do {
      const { body, headers } = await network.get(`/v1/audit-entries?limit=1${cursor}`).expect(200);
      seen.push(...body.items.map((entry: Entry) => entry.subjectId));
      expect(headers['link'] === undefined).toBe(body.nextCursor === null);
      cursor = body.nextCursor === null ? '' : `&cursor=${body.nextCursor}`;
    } while (cursor !== '');
    expect(seen).toEqual(ids);
  });

  test('a key limited to one incident sees what keys with the same limit did; another network sees its own', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [first, second] = [await ours.incident(), await ours.incident()];
    const [ofFirst, ofSecond] = [ours.as(await ours.newKey({ incidentId: first.id })), ours.as(await ours.newKey({ incidentId: second.id }))];
    const made = await ofFirst.post(`/v1/incidents/${first.id}/households`, household()).expect(201);
    await ofSecond.post(`/v1/incidents/${second.id}/households`, household()).expect(201);
    const subjects = async (client: TestClient) => (await entriesOf(client)).map(({ subjectId }) => subjectId);
    expect(await subjects(ofFirst)).toEqual([made.body.id]);
    expect(await subjects(ours)).toHaveLength(4);
    expect(await subjects(theirs)).toEqual([]);
    await foreignCursor(ours, theirs);
  });

  async function foreignCursor(ours: TestNetwork, theirs: TestNetwork): Promise<void> {
    const { body } = await ours.get('/v1/audit-entries?limit=1').expect(200);
    expect((await theirs.get(`/v1/audit-entries?cursor=${body.nextCursor}`).expect(400)).body.code).toBe('cursor_invalid');
  }
});
