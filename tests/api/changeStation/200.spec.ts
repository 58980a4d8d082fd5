import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeStation answers 200', () => {
  test('it closes and takes fewer items; what was not named stays', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const changed = await network.patch(`/v1/incidents/${incident.id}/stations/${incident.station('BLOT')}`, { state: 'closed', capacity: 1 }, { 'if-match': '"1"' }).expect(200);
    expect(changed.headers['etag']).toBe('"2"');
    expect(changed.body).toMatchObject({ code: 'BLOT', zone: 'clean', steps: ['blot', 'surface-clean'], state: 'closed', capacity: 1, version: 2, openings: [{}, {}] });
  });
});
