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

test("a limit goes with a yes to a specialist alone, is kept with it, and an item's own word stands before the household's", async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const word = (body: object) => network.post(`/v1/households/${household.id}/consents`, { manner: 'written', given: true, ...body });
  await word({ scope: 'treat', limit: { minor: 100, currency: 'USD' } }).expect(400);
  await word({ scope: 'refer', given: false, limit: { minor: 100, currency: 'USD' } }).expect(400);
  await word({ scope: 'refer', limit: { minor: 100, currency: 'usd' } }).expect(400);
  await word({ scope: 'refer', limit: { minor: -1, currency: 'USD' } }).expect(400);
  expect((await network.get(`/v1/households/${household.id}`)).body.consents).toEqual([]);
  expect((await word({ scope: 'refer', limit: { minor: 50_000, currency: 'MXN' } }).expect(201)).body.limit).toEqual({ minor: 50_000, currency: 'MXN' });
  await word({ scope: 'refer', itemId: item.id, limit: { minor: 900, currency: 'MXN' } }).expect(201);
  const context = { networkId: network.networkId, incidentLimit: null, principalId: household.id, requestId: 'test', traceparent: '' };
  const inForce = await server.unitOfWork.read(context, (stores) => stores.consents.inForce(household.id, item.id));
  expect(inForce).toMatchObject({ consents: { refer: true }, referLimit: { minor: 900, currency: 'MXN' } });
});
