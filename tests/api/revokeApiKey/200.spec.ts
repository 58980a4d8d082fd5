import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('revokeApiKey answers 200', () => {
  test('a revoked key is refused, and revoking it again changes nothing', async () => {
    const network = await server.network();
    const key = await network.post('/v1/keys', { label: 'Lost tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    const revoked = await network.post(`/v1/keys/${key.body.id}/revoke`).expect(200);
    expect(revoked.body).toMatchObject({ id: key.body.id, state: 'revoked' });
    await network.as(key.body.secret).get('/v1/incidents').expect(401);
    const again = await network.post(`/v1/keys/${key.body.id}/revoke`).expect(200);
    expect(again.body.revokedAt).toBe(revoked.body.revokedAt);
  });

  test('a managing key goes when another one stays', async () => {
    const network = await server.network();
    const second = await network.post('/v1/keys', { label: 'Second', scopes: ['keys:manage'], expiresAt: inDays(30) }).expect(201);
    await network.post(`/v1/keys/${second.body.id}/revoke`).expect(200);
  });
});
