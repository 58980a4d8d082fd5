import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('rotateApiKey answers 403', () => {
  test('a weaker manager cannot become stronger by rotating a stronger key', async () => {
    const network = await server.network();
    const strong = await network.post('/v1/keys', { label: 'Strong', scopes: ['household:read'], expiresAt: inDays(30) }).expect(201);
    const manager = network.as(await network.newKey({ scopes: ['keys:manage'] }));
    const refused = await manager.post(`/v1/keys/${strong.body.id}/rotate`).expect(403);
    expect(refused.body.code).toBe('scope_missing');
    await network.as(strong.body.secret).get('/v1/incidents').expect(403);
    const { rows } = await server.admin.query('select count(*)::int as n from api_key where replaces_id = $1', [strong.body.id]);
    expect(rows).toEqual([{ n: 0 }]);
  });
});
