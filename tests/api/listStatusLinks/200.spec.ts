import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, linkOf } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('shows the links of the household with for whom they are, never with their secrets', async () => {
  const household = await family(network, incident);
  const one = await linkOf(network, household, { forWhom: 'the son' });
  const two = await linkOf(network, household, { validDays: 1 });
  const { body, text } = await network.get(`/v1/households/${household.id}/status-links`).expect(200);
  expect(body.items).toMatchObject([{ id: two.id, expiresAt: '2026-05-10T07:00:00.000Z' }, { id: one.id, forWhom: 'the son', revokedAt: null, pickUpCodeLocked: false }]);
  for (const secret of [one.path.slice(3), two.path.slice(3), one.pickUpCode]) expect(text).not.toContain(secret);
});
