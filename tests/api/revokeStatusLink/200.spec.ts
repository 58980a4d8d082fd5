import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, linkOf, openPage } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('the link opens nothing from now on, and the others of the family go on', async () => {
  const household = await family(network, incident);
  const [one, two] = [await linkOf(network, household), await linkOf(network, household)];
  expect((await network.post(`/v1/status-links/${one.id}/revocation`, {}).expect(200)).body.revokedAt).toBe('2026-05-09T07:00:00.000Z');
  await openPage(server, one.path).expect(404);
  await openPage(server, two.path).expect(200);
  await network.post(`/v1/status-links/${one.id}/revocation`, {}).expect(409);
});
