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

test('a container keeps items like any other keeper', async () => {
  const [tag] = await reserveTestTags(network, incident, 1, 'container');
  const tub = await network.post(`/v1/incidents/${incident.id}/containers`, { siteId: incident.site(), tag, kind: 'tub', description: 'Blue tub' }).expect(201);
  const item = await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  await network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: item.keeper, to: { kind: 'container', id: tub.body.id } }).expect(201);
  expect((await network.get(`/v1/items/${item.id}`)).body.keeper).toEqual({ kind: 'container', id: tub.body.id });
});

test('a tag for items is refused on a container', async () => {
  const [tag] = await reserveTestTags(network, incident, 1, 'item');
  expect((await network.post(`/v1/incidents/${incident.id}/containers`, { siteId: incident.site(), tag, kind: 'tub' }).expect(422)).body.code).toBe('tag_invalid');
});
