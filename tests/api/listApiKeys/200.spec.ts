import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('listApiKeys answers 200', () => {
  test('keys are listed newest first with their state and never with a secret', async () => {
    const network = await server.network();
    const made = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    await network.post(`/v1/keys/${made.body.id}/revoke`).expect(200);
    const { body } = await network.get('/v1/keys').expect(200);
    expect(body.items.map((key: { label: string; state: string }) => [key.label, key.state])).toEqual([['Tablet', 'revoked'], ['test', 'active']]);
    expect(JSON.stringify(body)).not.toMatch(/secret|sha256/i);
  });

  test('pages of one key each show every key once', async () => {
    const network = await server.network();
    for (const label of ['A', 'B']) await network.post('/v1/keys', { label, scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    const labels: string[] = [];
    let cursor = '';
    do {
      const { body } = await network.get(`/v1/keys?limit=1${cursor}`).expect(200);
      labels.push(...body.items.map((key: { label: string }) => key.label));
      cursor = body.nextCursor === null ? '' : `&cursor=${body.nextCursor}`;
    } while (cursor !== '');
    expect(labels).toEqual(['B', 'A', 'test']);
  });

  test('a limited manager sees the keys of its incident; another network sees its own', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const incident = await ours.incident();
    const limited = ours.as(await ours.newKey({ incidentId: incident.id }));
    const seen = await limited.get('/v1/keys').expect(200);
    expect(seen.body.items.map((key: { limitedToIncidentId: string }) => key.limitedToIncidentId)).toEqual([incident.id]);
    expect((await theirs.get('/v1/keys').expect(200)).body.items).toHaveLength(1);
  });
});
