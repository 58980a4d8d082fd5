import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeStation answers 428', () => {
  test('without If-Match the station stays as it is', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}/stations/${incident.station('RINSE')}`, { capacity: 9 }).expect(428);
    const { rows } = await server.admin.query('select capacity from station where id = $1', [incident.station('RINSE')]);
    expect(rows).toEqual([{ capacity: 2 }]);
  });
});
