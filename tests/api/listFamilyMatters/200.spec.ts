import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, mattersOf, thingOf } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('shows what is open with advice, and settled ones only when they are asked for', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const { body: asked } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
  await network.post(`/v1/owner-questions/${asked.id}/answers`, { answer: 'call-me', manner: 'spoken' }).expect(201);
  const [matter] = await mattersOf(network, incident, household.id);
  expect(matter).toMatchObject({ kind: 'call-asked', itemId: item.id, questionId: asked.id, advice: 'The family would rather speak with somebody before they answer. Call or meet them, and record what they say.' });
  expect(await mattersOf(network, incident, household.id, true)).toEqual([]);
});
