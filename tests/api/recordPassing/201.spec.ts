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

test('a move is recorded as the next event of the chain', async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  const item = await takeInTestItem(network, incident, household);
  const to = { kind: 'station', id: incident.station('TEST') };
  const answer = await network.post(`/v1/items/${item.id}/custody-events`, { kind: 'work-started', from: item.keeper, to, personId: incident.person('P1') }).expect(201);
  expect(answer.body).toMatchObject({ seq: 2, kind: 'work-started', stage: 'in-work', from: item.keeper, to });
  expect((await network.get(`/v1/items/${item.id}`)).body).toMatchObject({ stage: 'in-work', keeper: to, custodySeq: 2 });
});

test('of two crews that claim one item at the same moment exactly one gets it', async () => {
  const household = await takeInTestHousehold(network, incident);
  const item = await takeInTestItem(network, incident, household);
  const claim = (station: string) => network.post(`/v1/items/${item.id}/custody-events`, { kind: 'work-started', from: item.keeper, to: { kind: 'station', id: incident.station(station) } });
  const answers = await Promise.all([claim('TEST'), claim('RINSE'), claim('BLOT')]);
  expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409, 409]);
});
