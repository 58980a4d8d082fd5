import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { incidentDocument, startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('registerIncident answers 403', () => {
  test('a key limited to one incident cannot register another', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const limited = network.as(await network.newKey({ incidentId: incident.id }));
    const { body } = await limited.post('/v1/incidents', incidentDocument()).expect(403);
    expect(body.code).toBe('scope_missing');
  });

  test('a key that may only read cannot register', async () => {
    const network = await server.network();
    const reader = network.as(await network.newKey({ scopes: ['incident:read'] }));
    const { body } = await reader.post('/v1/incidents', incidentDocument()).expect(403);
    expect(body).toMatchObject({ code: 'scope_missing', scope: 'incident:write' });
  });
});
