import { afterAll, beforeAll, describe, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addDryingPlace asks for a new plan', () => {
  test('when a table is set up; a second one while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const add = (code: string) => network.post(`/v1/incidents/${incident.id}/drying-places`, { dryingRoomId: incident.room('ROOM'), code, name: 'Table', arrangement: 'table', areaM2: 2 }).expect(201);
    await expectOneRequest(server, incident.id, 'drying place T1 added', { first: () => add('T1'), second: () => add('T2') });
  });
});
