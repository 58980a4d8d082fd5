import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeIncident answers 404', () => {
  test("another network's incident is not there, whatever the version", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const incident = await ours.incident();
    await theirs.patch(`/v1/incidents/${incident.id}`, { name: 'Mine now' }, { 'if-match': '"1"' }).expect(404);
    expect((await ours.get(`/v1/incidents/${incident.id}`)).body.name).not.toBe('Mine now');
  });
});
