import { afterAll, beforeAll, describe, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('rotateApiKey answers 404', () => {
  test("another network's key, and a key of the whole network for a limited manager, are not there", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const incident = await ours.incident();
    const key = await ours.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    await theirs.post(`/v1/keys/${key.body.id}/rotate`).expect(404);
    const limited = ours.as(await ours.newKey({ incidentId: incident.id }));
    await limited.post(`/v1/keys/${key.body.id}/rotate`).expect(404);
  });
});
