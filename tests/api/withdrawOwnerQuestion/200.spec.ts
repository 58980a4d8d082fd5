import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, linkOf, openPage, thingOf } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('an open question is taken back once; the family is not asked it any more', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const { body: asked } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
  const link = await linkOf(network, household);
  expect((await openPage(server, link.path, '?lang=en')).text).toContain('May we take photographs');
  expect((await network.post(`/v1/owner-questions/${asked.id}/withdrawal`, {}).expect(200)).body.state).toBe('withdrawn');
  expect((await openPage(server, link.path, '?lang=en')).text).not.toContain('May we take photographs');
  await network.post(`/v1/owner-questions/${asked.id}/withdrawal`, {}).expect(409);
});
