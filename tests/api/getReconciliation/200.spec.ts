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

test('received equals the sum of all stages, every item has one keeper, every chain verifies', async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  for (let n = 0; n < 3; n += 1) await takeInTestItem(network, incident, household);
  const answer = await network.get(`/v1/incidents/${incident.id}/reconciliation`).expect(200);
  expect(answer.body).toMatchObject({ received: 3, difference: 0, keepersOtherThanOne: [], chainFaults: [], eventsVerified: 3 });
});

test('an event edited by the owner of the database is named', async () => {
  const other = await network.incident((document) => { document.name = 'Second water'; });
  const item = await takeInTestItem(network, other, await takeInTestHousehold(network, other));
  await server.admin.query('alter table custody_event disable trigger custody_event_append_only');
  await server.admin.query(`update custody_event set actor_id = network_id where item_id = $1`, [item.id]);
  await server.admin.query('alter table custody_event enable trigger custody_event_append_only');
  const answer = await network.get(`/v1/incidents/${other.id}/reconciliation`).expect(200);
  expect(answer.body.chainFaults).toContainEqual({ itemId: item.id, seq: 1, fault: 'hash' });
});

test('an item shown with a keeper that its chain does not end at is named', async () => {
  const other = await network.incident((document) => { document.name = 'Third water'; });
  const item = await takeInTestItem(network, other, await takeInTestHousehold(network, other));
  await server.admin.query(`update item set keeper_id = network_id where id = $1`, [item.id]);
  const answer = await network.get(`/v1/incidents/${other.id}/reconciliation`).expect(200);
  expect(answer.body.keepersOtherThanOne).toEqual([item.id]);
});
