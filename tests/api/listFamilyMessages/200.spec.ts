import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('shows how each message stands, newest first, and not where it goes', async () => {
  const household = await family(network, incident, { email: 'somebody@families.example' });
  await network.post(`/v1/households/${household.id}/family-messages`, { template: 'ready' }).expect(201);
  await network.post(`/v1/households/${household.id}/family-messages`, { template: 'not-saved' }).expect(201);
  const { body, text } = await network.get(`/v1/households/${household.id}/family-messages`).expect(200);
  expect(body.items.map(({ template, state }: { template: string; state: string }) => [template, state])).toEqual([['not-saved', 'waiting'], ['ready', 'waiting']]);
  expect(text).not.toContain('families.example');
});
