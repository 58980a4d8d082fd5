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

test("another network's household answers 404 and shows nothing of it", async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  await takeInTestItem(network, incident, household);
  const answer = await (await server.network()).get(`/v1/households/${household.id}`).expect(404);
  expect(JSON.stringify(answer.body)).not.toContain(household.code);
});
