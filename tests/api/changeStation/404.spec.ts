import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeStation answers 404', () => {
  test('a station of another incident, of another network, and below a limited key is not there', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [one, two] = [await ours.incident(), await ours.incident()];
    const stale = { 'if-match': '"1"' };
    await ours.patch(`/v1/incidents/${one.id}/stations/${two.station('BLOT')}`, { capacity: 1 }, stale).expect(404);
    await theirs.patch(`/v1/incidents/${one.id}/stations/${one.station('BLOT')}`, { capacity: 1 }, stale).expect(404);
    const limited = ours.as(await ours.newKey({ incidentId: two.id }));
    await limited.patch(`/v1/incidents/${one.id}/stations/${one.station('BLOT')}`, { capacity: 1 }, stale).expect(404);
    await ours.patch(`/v1/incidents/${one.id}/stations/not-an-id`, { capacity: 1 }, stale).expect(404);
    const { rows } = await server.admin.query('select distinct version from station where network_id = $1', [ours.networkId]);
    expect(rows).toEqual([{ version: 1 }]);
  });
});
