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

test('says who saw to it, in sealed words, once', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const { body: asked } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
  await network.post(`/v1/owner-questions/${asked.id}/answers`, { answer: 'call-me', manner: 'spoken' }).expect(201);
  const [matter] = await mattersOf(network, incident, household.id);
  const settle = () => network.post(`/v1/family-matters/${matter?.id}/settlement`, { personId: incident.person('P2'), settlement: 'Met them at the gate.' });
  expect((await settle().expect(201)).body).toMatchObject({ settledBy: incident.person('P2'), settlement: 'Met them at the gate.', settledAt: '2026-05-09T07:00:00.000Z' });
  await settle().expect(409);
  expect(await mattersOf(network, incident, household.id)).toEqual([]);
  expect(await mattersOf(network, incident, household.id, true)).toMatchObject([{ id: matter?.id, settlement: 'Met them at the gate.' }]);
  const { rows } = await server.admin.query('select t::text as row from family_matter t where id = $1', [matter?.id]);
  expect(rows[0].row).not.toContain('gate');
});
