import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

async function managersOf(networkId: string): Promise<{ id: string; ended: boolean }[]> {
  const { rows } = await server.admin.query<{ id: string; ended: boolean }>("select id, revoked_at is not null as ended from api_key where network_id = $1 and 'keys:manage' = any(scopes) order by id", [networkId]);
  return rows;
}

describe('revokeApiKey answers 409', () => {
  test('the last key that can manage keys stays, and the refusal is the same when sent again', async () => {
    const network = await server.network();
    const [only] = await managersOf(network.networkId);
    const headers = { 'idempotency-key': '"2c0e2b0a-2f3c-4b57-9a38-3a7a1a0d9c14"' };
    for (const replayed of [undefined, 'true']) {
      const refused = await network.post(`/v1/keys/${only?.id}/revoke`, {}, headers).expect(409);
      expect(refused.body.code).toBe('key_last_manager');
      expect(refused.headers['idempotency-replayed']).toBe(replayed);
    }
    expect(await managersOf(network.networkId)).toMatchObject([{ ended: false }]);
  });

  test('a manager that has expired, or is limited to one incident, does not count as another one', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [only] = await managersOf(network.networkId);
    await network.newKey({ scopes: ['keys:manage'], expiresAt: new Date(Date.now() - 1000) });
    await network.newKey({ scopes: ['keys:manage'], incidentId: incident.id });
    await network.post(`/v1/keys/${only?.id}/revoke`).expect(409);
  });

  test('two managers who revoke each other at the same moment leave one', async () => {
    for (let round = 0; round < 5; round += 1) {
      const network = await server.network();
      const second = network.as(await network.newKey());
      const [first, other] = await managersOf(network.networkId);
      await Promise.all([network.post(`/v1/keys/${other?.id}/revoke`), second.post(`/v1/keys/${first?.id}/revoke`)]);
      expect((await managersOf(network.networkId)).filter((manager) => !manager.ended)).toHaveLength(1);
    }
  });
});
