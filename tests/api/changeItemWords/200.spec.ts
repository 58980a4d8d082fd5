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

test("the family's words are changed for the version that was read, and the new ETag is answered", async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  const item = await takeInTestItem(network, incident, household);
  const answer = await network.patch(`/v1/items/${item.id}`, { familyWords: 'It was on her bed for sixty years.' }, { 'if-match': `"${item.version}"` }).expect(200);
  expect(answer.body.familyWords).toBe('It was on her bed for sixty years.');
  expect(answer.body.description).toBe(item['description']);
  expect(answer.headers['etag']).toBe(`"${item.version + 1}"`);
});
