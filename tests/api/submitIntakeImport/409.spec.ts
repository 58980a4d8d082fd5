import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 409', () => {
  test('a closed incident', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
    const { body } = await submit(network, incident, 'tag,household\nA,HH-1\n').expect(409);
    expect(body.code).toBe('incident_closed');
  });
});
