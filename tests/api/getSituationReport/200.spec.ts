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

test('the report adds up what was taken in and what is at risk', async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  await takeInTestItem(network, incident, household);
  await takeInTestItem(network, incident, household, { count: 30, sizeClass: 'print-10x15', materialClass: 'photo-colour-print' });
  const answer = await network.get(`/v1/incidents/${incident.id}/situation-report?until=2026-05-12T00:00:00Z`).expect(200);
  const waiting = answer.body.stages.find((stage: { stage: string }) => stage.stage === 'waiting');
  expect(waiting).toMatchObject({ items: 2, pieces: 31 });
  expect(answer.body.atRisk.items).toBe(2);
  expect(answer.body.rooms[0]).toMatchObject({ aboveCap: false, dehumidifiersRunning: 1 });
  expect(answer.body.standing).toContain('nobody is promised an outcome');
});
