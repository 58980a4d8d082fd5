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

test("another network's item answers 404 with the body of an id that never was", async () => {
  const household = await takeInTestHousehold(network, incident);
  const item = await takeInTestItem(network, incident, household);
  await reserveTestTags(network, incident, 1);
  const stranger = await server.network();
  const foreign = await stranger.get(`/v1/items/${item.id}`).expect(404);
  const never = await stranger.get('/v1/items/0198b7a0-1111-7222-8333-444455556666').expect(404);
  const same = ({ code, detail, title, type, status }: Record<string, unknown>) => ({ code, detail, title, type, status });
  expect(same(foreign.body)).toEqual(same(never.body));
});
