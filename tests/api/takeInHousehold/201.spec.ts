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

test('a household is registered with its contact and consents', async () => {
  await reserveTestTags(network, incident, 1);
  const household = await takeInTestHousehold(network, incident);
  const read = await network.get(`/v1/households/${household.id}`).expect(200);
  expect(read.body).toMatchObject({ code: household.code, contact: { phone: '000' } });
  expect(read.body.consents.map((consent: { scope: string }) => consent.scope).sort()).toEqual(['freeze', 'treat']);
  await takeInTestItem(network, incident, household);
});

test('a code that is taken is refused with the household that has it', async () => {
  const household = await takeInTestHousehold(network, incident);
  const answer = await network.post(`/v1/incidents/${incident.id}/households`, { code: household.code, contact: { name: 'Somebody' } }).expect(409);
  expect(answer.body).toMatchObject({ code: 'already_exists', householdId: household.id });
});
