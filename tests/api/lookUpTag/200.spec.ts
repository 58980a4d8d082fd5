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

test('a tag is found however it is typed', async () => {
  const item = await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  await reserveTestTags(network, incident, 1);
  for (const typed of [item.tag, item.tag.toLowerCase(), item.tag.replaceAll('-', ''), item.tag.replaceAll('-', ' ')]) {
    const answer = await network.get(`/v1/tags/${encodeURIComponent(typed)}`).expect(200);
    expect(answer.body.item.id).toBe(item.id);
  }
});

test("another network's tag answers 404", async () => {
  const item = await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  await (await server.network()).get(`/v1/tags/${item.tag}`).expect(404);
});
