import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, reserveTestTags, startTestServer, takeInTestHousehold, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('a tag that is tied already is refused, also when two volunteers use it at the same moment', async () => {
  const household = await takeInTestHousehold(network, incident);
  const [tag] = await reserveTestTags(network, incident, 1);
  const send = () => network.post(`/v1/incidents/${incident.id}/items`, { householdId: household.id, siteId: incident.site(), tag, description: 'letter', sizeClass: 'a4-sheet' });
  const answers = await Promise.all([send(), send(), send(), send()]);
  expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409, 409, 409]);
  expect(answers.find((answer) => answer.status === 409)?.body.code).toBe('tag_taken');
});
