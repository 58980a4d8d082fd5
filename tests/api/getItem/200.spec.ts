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

test('an item is read with everything a station needs', async () => {
  const household = await takeInTestHousehold(network, incident);
  const item = await takeInTestItem(network, incident, household);
  const read = await network.get(`/v1/items/${item.id}`).expect(200);
  expect(read.body).toEqual(item);
  await reserveTestTags(network, incident, 1);
});
