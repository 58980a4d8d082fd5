import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { sensor } from '../support/climate.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('listSensors answers 200 with the sensors in the order of their codes, of a place or state, by pages, and 404 to another network', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const freezer = { placeKind: 'freezer', placeId: incident.freezer('F1') };
  for (const [code, place] of [['T-2', undefined], ['F-1', freezer], ['T-10', undefined]] as const) await sensor(network, incident, code, place);
  const codes = async (query: string) => (await network.get(`/v1/incidents/${incident.id}/sensors?${query}`).expect(200)).body.items.map(({ code }: { code: string }) => code);
  expect(await codes('')).toEqual(['F-1', 'T-10', 'T-2']);
  expect(await codes(`placeKind=freezer&placeId=${freezer.placeId}`)).toEqual(['F-1']);
  expect(await codes('state=withdrawn')).toEqual([]);
  const first = await network.get(`/v1/incidents/${incident.id}/sensors?limit=2`).expect(200);
  expect(await codes(`limit=2&cursor=${encodeURIComponent(first.body.nextCursor)}`)).toEqual(['T-2']);
  await (await server.network()).get(`/v1/incidents/${incident.id}/sensors`).expect(404);
});
