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

test('waits in the queue, once about one thing, and its row in the outbox holds ids alone', async () => {
  const household = await family(network, incident, { email: 'somebody@families.example' });
  const item = await thingOf(network, incident, household);
  const { body } = await network.post(`/v1/households/${household.id}/family-messages`, { template: 'ready', itemId: item.id }).expect(201);
  expect(body).toMatchObject({ template: 'ready', subjectId: item.id, state: 'waiting', tries: 0, channel: null });
  expect((await network.post(`/v1/households/${household.id}/family-messages`, { template: 'ready', itemId: item.id }).expect(409)).body.code).toBe('already_exists');
  await network.post(`/v1/households/${household.id}/family-messages`, { template: 'ready' }).expect(201);
  const { rows } = await server.admin.query("select t::text as row, subject_id from outbox t where kind = 'family.message' and subject_id = $1", [body.id]);
  expect(rows).toHaveLength(1);
  expect(rows[0].row).not.toContain('families.example');
});

test('refuses a thing of another family, and a template that only the service uses', async () => {
  const household = await family(network, incident);
  const foreign = await thingOf(network, incident, await family(network, incident));
  expect((await network.post(`/v1/households/${household.id}/family-messages`, { template: 'ready', itemId: foreign.id }).expect(422)).body.code).toBe('reference_unknown');
  await network.post(`/v1/households/${household.id}/family-messages`, { template: 'question' }).expect(400);
});
