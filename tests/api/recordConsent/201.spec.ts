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

test('a change of mind is a newer word, and the items it touches are triaged anew', async () => {
  const household = await takeInTestHousehold(network, incident, []);
  await reserveTestTags(network, incident, 1);
  const item = await takeInTestItem(network, incident, household);
  await network.post(`/v1/households/${household.id}/consents`, { scope: 'treat', given: true, manner: 'spoken' }).expect(201);
  await network.post(`/v1/households/${household.id}/consents`, { scope: 'treat', given: false, manner: 'written', itemId: item.id }).expect(201);
  const read = await network.get(`/v1/households/${household.id}`).expect(200);
  expect(read.body.consents).toHaveLength(2);
  const after = await network.get(`/v1/items/${item.id}`).expect(200);
  expect(after.body.version).toBeGreaterThan(item.version);
  expect(after.body.disposition).not.toBe('treat');
});

test('an item of another household is refused', async () => {
  const mine = await takeInTestHousehold(network, incident);
  const theirs = await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  expect((await network.post(`/v1/households/${mine.id}/consents`, { scope: 'treat', given: true, manner: 'spoken', itemId: theirs.id }).expect(422)).body.code).toBe('reference_unknown');
});
