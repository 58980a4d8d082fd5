import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('an item taken in has its tag, exactly one keeper, a first custody event and a cautious urgency', async () => {
  const household = await takeInTestHousehold(network, incident);
  const item = await takeInTestItem(network, incident, household);
  expect(item).toMatchObject({ stage: 'waiting', kind: 'item', custodySeq: 1, keeper: { kind: 'holding', id: incident.holding('dirty') } });
  expect(item['urgency']).not.toBeNull();
  const chain = await network.get(`/v1/items/${item.id}/custody-events`).expect(200);
  expect(chain.body.items).toHaveLength(1);
  expect(chain.body.items[0]).toMatchObject({ kind: 'taken-in', seq: 1, from: null, to: item.keeper });
});

test('a counted lot takes the area of all its pieces', async () => {
  const household = await takeInTestHousehold(network, incident);
  const one = await takeInTestItem(network, incident, household, { sizeClass: 'print-10x15', materialClass: 'photo-colour-print' });
  const lot = await takeInTestItem(network, incident, household, { sizeClass: 'print-10x15', materialClass: 'photo-colour-print', count: 240 });
  expect(lot).toMatchObject({ kind: 'lot', count: 240 });
  expect(Number(lot['dryingAreaM2'])).toBeGreaterThanOrEqual(239 * Number(one['dryingAreaM2']));
});

test('the ETag of the answer is the version of the item', async () => {
  const household = await takeInTestHousehold(network, incident);
  const item = await takeInTestItem(network, incident, household);
  const read = await network.get(`/v1/items/${item.id}`).expect(200);
  expect(read.headers['etag']).toBe(`"${item.version}"`);
});
