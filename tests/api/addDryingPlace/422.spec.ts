import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addDryingPlace answers 422', () => {
  test('a room of another incident is unknown here', async () => {
    const network = await server.network();
    const [incident, other] = [await network.incident(), await network.incident()];
    const { body } = await network.post(`/v1/incidents/${incident.id}/drying-places`, { dryingRoomId: other.room('ROOM'), code: 'T1', name: 'Table 1', arrangement: 'table', areaM2: 2 }).expect(422);
    expect(body.errors).toMatchObject([{ pointer: '#/dryingRoomId' }]);
  });
});
