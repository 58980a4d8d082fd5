import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, thingOf } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('pages through the questions of the incident and narrows them by state', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const { body: asked } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
  await network.post(`/v1/owner-questions/${asked.id}/withdrawal`, {}).expect(200);
  const first = await network.get(`/v1/incidents/${incident.id}/owner-questions?limit=1`).expect(200);
  expect(first.body.items).toHaveLength(1);
  const second = await network.get(`/v1/incidents/${incident.id}/owner-questions?limit=1&cursor=${first.body.nextCursor}`).expect(200);
  expect(second.body.items[0].id).not.toBe(first.body.items[0].id);
  const withdrawn = await network.get(`/v1/incidents/${incident.id}/owner-questions?state=withdrawn`).expect(200);
  expect(withdrawn.body.items.map(({ id }: { id: string }) => id)).toEqual([asked.id]);
});
