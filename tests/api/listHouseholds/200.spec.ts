import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, reserveTestTags, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('the list shows codes and no personal data', async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  await takeInTestItem(network, incident, household);
  const answer = await network.get(`/v1/incidents/${incident.id}/households`).expect(200);
  expect(answer.body.items).toContainEqual({ id: household.id, incidentId: incident.id, code: household.code, language: 'en' });
  expect(JSON.stringify(answer.body)).not.toContain('Contact of');
});
