import { afterAll, beforeAll, describe, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('revokeApiKey answers 404', () => {
  test("another network's key is not there and keeps working", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const key = await ours.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    await theirs.post(`/v1/keys/${key.body.id}/revoke`).expect(404);
    await ours.as(key.body.secret).get('/v1/incidents').expect(200);
  });
});
