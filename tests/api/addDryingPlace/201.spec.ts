import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addDryingPlace answers 201', () => {
  test('a table joins its room with its area to the square decimetre', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const added = await network.post(`/v1/incidents/${incident.id}/drying-places`, { dryingRoomId: incident.room('ROOM'), code: 'T1', name: 'Table 1', arrangement: 'table', areaM2: 2.345 }).expect(201);
    expect(added.body).toMatchObject({ dryingRoomId: incident.room('ROOM'), arrangement: 'table', areaM2: 2.35, version: 1 });
    const { rows } = await server.admin.query('select area_dm2 from drying_place where id = $1', [added.body.id]);
    expect(rows).toEqual([{ area_dm2: 235 }]);
  });
});
