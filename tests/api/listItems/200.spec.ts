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

test('pages follow one another without a gap or a repeat, and the Link header leads on', async () => {
  const household = await takeInTestHousehold(network, incident);
  const ids: string[] = [];
  for (let n = 0; n < 5; n += 1) ids.push((await takeInTestItem(network, incident, household)).id);
  const seen: string[] = [];
  let path: string | null = `/v1/incidents/${incident.id}/items?limit=2&householdId=${household.id}`;
  while (path !== null) {
    const page = await network.get(path).expect(200);
    seen.push(...page.body.items.map((item: { id: string }) => item.id));
    const next = /<([^>]+)>; rel="next"/.exec(page.headers['link'] ?? '');
    expect(page.body.nextCursor === null).toBe(next === null);
    path = next?.[1] ?? null;
  }
  expect(seen).toEqual(ids);
});

test('a cursor of another filter is refused', async () => {
  const page = await network.get(`/v1/incidents/${incident.id}/items?limit=1`).expect(200);
  const answer = await network.get(`/v1/incidents/${incident.id}/items?limit=1&stage=drying&cursor=${page.body.nextCursor}`).expect(400);
  expect(answer.body.code).toBe('cursor_invalid');
});

test('filters answer only what they name', async () => {
  const household = await takeInTestHousehold(network, incident);
  await takeInTestItem(network, incident, household);
  const drying = await network.get(`/v1/incidents/${incident.id}/items?stage=drying`).expect(200);
  expect(drying.body.items).toEqual([]);
  const here = await network.get(`/v1/incidents/${incident.id}/items?keeperKind=holding&keeperId=${incident.holding('dirty')}&limit=200`).expect(200);
  expect(here.body.items.length).toBeGreaterThan(0);
});
