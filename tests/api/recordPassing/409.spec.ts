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

test('an item moved from where it is not answers where it is, and nothing changes', async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  const item = await takeInTestItem(network, incident, household);
  const answer = await network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: { kind: 'station', id: incident.station('RINSE') }, to: { kind: 'holding', id: incident.holding('clean') } }).expect(409);
  expect(answer.body).toMatchObject({ code: 'wrong_keeper', keeper: item.keeper, stage: 'waiting' });
  expect((await network.get(`/v1/items/${item.id}`)).body.custodySeq).toBe(1);
});

test('a full freezer refuses, and two crews cannot share its last place', async () => {
  const household = await takeInTestHousehold(network, incident);
  const freezer = { kind: 'freezer', id: incident.freezer('F1') };
  const items = [];
  for (let n = 0; n < 12; n += 1) items.push(await takeInTestItem(network, incident, household));
  const answers = await Promise.all(items.map((item) => network.post(`/v1/items/${item.id}/custody-events`, { kind: 'frozen', from: item.keeper, to: freezer })));
  const volume = Number(items[0]?.['freezerVolumeL']);
  expect(answers.filter((answer) => answer.status === 201)).toHaveLength(Math.floor(300 / volume));
  expect(answers.find((answer) => answer.status === 409)?.body.code).toBe('capacity_full');
});

test('an owner who refused freezing is obeyed', async () => {
  const household = await takeInTestHousehold(network, incident, [{ scope: 'freeze', given: false, manner: 'written' }]);
  const item = await takeInTestItem(network, incident, household, { sizeClass: 'print-10x15', materialClass: 'photo-colour-print' });
  const answer = await network.post(`/v1/items/${item.id}/custody-events`, { kind: 'frozen', from: item.keeper, to: { kind: 'freezer', id: incident.freezer('F1') } }).expect(409);
  expect(answer.body.code).toBe('consent_missing');
});
