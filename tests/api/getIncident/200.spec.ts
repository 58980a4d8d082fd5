import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('getIncident answers 200', () => {
  test('it carries the ETag that a change needs', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const read = await network.get(`/v1/incidents/${incident.id}`).expect(200);
    expect(read.headers['etag']).toBe('"1"');
    expect(read.body).toMatchObject({ id: incident.id, defaultWater: 'black', version: 1 });
  });
});
