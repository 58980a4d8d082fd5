import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeIncident answers 428', () => {
  test('without If-Match nothing is overwritten unseen', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.patch(`/v1/incidents/${incident.id}`, { name: 'Unseen' }).expect(428);
    expect(body.code).toBe('precondition_required');
    expect((await network.get(`/v1/incidents/${incident.id}`)).headers['etag']).toBe('"1"');
  });
});
