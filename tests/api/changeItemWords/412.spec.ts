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

test('a stale version is refused with the present one, a missing one asks for it, a weak tag never matches', async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  const item = await takeInTestItem(network, incident, household);
  const patch = (headers: Record<string, string>) => network.patch(`/v1/items/${item.id}`, { description: 'another' }, headers);
  expect((await patch({}).expect(428)).body.code).toBe('precondition_required');
  expect((await patch({ 'if-match': `W/"${item.version}"` }).expect(412)).body.currentEtag).toBe(`"${item.version}"`);
  expect((await patch({ 'if-match': '"99"' }).expect(412)).body.code).toBe('version_stale');
  expect((await network.get(`/v1/items/${item.id}`)).body.description).toBe(item['description']);
});
