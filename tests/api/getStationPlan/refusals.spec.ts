import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let ours: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  ours = await server.network();
  incident = await ours.incident();
});
afterAll(() => server.close());

test.each(['plan-chart', 'plan-chart/plot'])("%s: another network's station and one that never was answer the same 404; a key without station:work 403", async (route) => {
  const theirs = await server.network();
  const path = `/v1/stations/${incident.station('RINSE')}/${route}`;
  const [strange, none] = [await theirs.get(path).expect(404).expect('content-type', /application\/problem\+json/), await ours.get(`/v1/stations/${newId()}/${route}`).expect(404)];
  expect(strange.body.detail).toBe(none.body.detail);
  const reader = ours.as(await ours.newKey({ scopes: ['item:read'] }));
  expect((await reader.get(path).expect(403)).body.code).toBe('scope_missing');
});

test.each(['hours=0', 'hours=49', 'hours=x', 'hours=Infinity', 'from=yesterday', 'from=0001-01-01T00:00:00Z', 'toleranceMinutes=-1', 'toleranceMinutes=1.5', 'until=3'])('a time that no chart has is refused: %s', async (query) => {
  expect((await ours.get(`/v1/stations/${incident.station('RINSE')}/plan-chart?${query}`).expect(400)).body).toMatchObject({ code: 'validation_failed' });
});
