import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('in a closed incident nothing is scanned, and nothing is kept', async () => {
  const world = await scanWorld(server);
  await world.network.patch(`/v1/incidents/${world.incident.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
  const { body } = await world.network.post(`/v1/incidents/${world.incident.id}/scans`, { scans: [world.scan('KXXX-XXX-00', world.a)] }).expect(409);
  expect(body.code).toBe('incident_closed');
  expect((await server.admin.query('select 1 from scan')).rows).toEqual([]);
});
