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

test('a household is told about its own things in plain words and about nobody else\'s', async () => {
  const mine = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  const item = await takeInTestItem(network, incident, mine);
  await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  const answer = await network.get(`/v1/households/${mine.id}/situation-report`).expect(200);
  expect(answer.body.items.map((entry: { id: string }) => entry.id)).toEqual([item.id]);
  expect(answer.body.items[0].inWords).not.toBe('');
  expect(answer.body.standing).toContain('cannot promise');
});
