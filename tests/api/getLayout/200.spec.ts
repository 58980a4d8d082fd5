import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('getLayout answers 200', () => {
  test('versions in the layout are the ETags of the things', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const station = incident.station('RINSE');
    const changed = await network.patch(`/v1/incidents/${incident.id}/stations/${station}`, { capacity: 5 }, { 'if-match': '"1"' }).expect(200);
    const { body } = await network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
    const shown = body.sites[0].stations.find((entry: { id: string }) => entry.id === station);
    expect(shown).toEqual(changed.body);
    expect(changed.headers['etag']).toBe(`"${shown.version}"`);
  });
});
