import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('rotateApiKey answers 422', () => {
  test('a key that has ended has no successor', async () => {
    const network = await server.network();
    const key = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    await network.post(`/v1/keys/${key.body.id}/revoke`).expect(200);
    const { body } = await network.post(`/v1/keys/${key.body.id}/rotate`).expect(422);
    expect(body.code).toBe('command_refused');
  });
});
