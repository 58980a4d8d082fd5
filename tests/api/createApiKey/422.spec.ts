import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('createApiKey answers 422', () => {
  test("a limit to another network's incident, or beyond a limited manager's own, names nothing", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [one, two, foreign] = [await ours.incident(), await ours.incident(), await theirs.incident()];
    const body = { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) };
    const limited = ours.as(await ours.newKey({ incidentId: one.id }));
    for (const [client, limit] of [[ours, foreign.id], [limited, two.id]] as const) {
      const refused = await client.post('/v1/keys', { ...body, limitedToIncidentId: limit }).expect(422);
      expect(refused.body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/limitedToIncidentId' }] });
    }
  });
});
