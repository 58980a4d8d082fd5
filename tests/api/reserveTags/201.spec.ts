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

test('blocks reserved at the same moment never share a tag', async () => {
  const blocks = await Promise.all(Array.from({ length: 6 }, () => reserveTestTags(network, incident, 50)));
  expect(new Set(blocks.flat()).size).toBe(300);
  await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
});
