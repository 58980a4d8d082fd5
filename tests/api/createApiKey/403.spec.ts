import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('createApiKey answers 403', () => {
  test('nobody gives away scopes they do not have', async () => {
    const network = await server.network();
    const manager = network.as(await network.newKey({ scopes: ['keys:manage', 'incident:read'] }));
    const { body } = await manager.post('/v1/keys', { label: 'Too much', scopes: ['incident:read', 'household:read'], expiresAt: inDays(30) }).expect(403);
    expect(body).toMatchObject({ code: 'scope_missing', errors: [{ pointer: '#/scopes/1' }] });
    const { rows } = await server.admin.query("select 1 from api_key where network_id = $1 and label = 'Too much'", [network.networkId]);
    expect(rows).toEqual([]);
  });
});
