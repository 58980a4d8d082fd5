import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';
import { assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { testedQuilts, wishOf } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

test('work that the lead of the site refuses at a station goes to another, by a key that may only work at stations', async () => {
  const incident = await network.incident((document) => {
    withBenches(document);
    const stations = document.sites[0]!.stations!;
    stations.push({ ...stations.find(({ code }) => code === 'RINSE')!, code: 'RINSE2', name: 'More baths' });
  });
  const [item] = await testedQuilts(network, incident, 1);
  await planNow(server, network, incident);
  const rinsedAt = async () => (await assignmentsOf(network, incident)).find(({ step }) => step === 'rinse')!.stationId!;
  const refusing = await rinsedAt();
  const tablet = network.as(await network.newKey({ scopes: ['station:work'] }));
  const { body } = await tablet.post(`/v1/stations/${refusing}/plan-wishes`, wishOf(incident, item!, 'bar-station', { step: 'rinse', reason: 'Our baths are too small for it.' })).expect(201);
  expect(body).toMatchObject({ kind: 'bar-station', stationId: refusing, askedAtStationId: refusing, step: 'rinse', reason: 'Our baths are too small for it.', state: 'stands' });
  expect(body.inWords).toMatch(/^“.+” of \S+ is not done at RINSE2?\.$/);
  await planNow(server, network, incident);
  expect(await rinsedAt()).not.toBe(refusing);
});

test('a piece of work is put off, and another taken before the rest', async () => {
  const incident = await network.incident(withBenches);
  const [later, sooner] = await testedQuilts(network, incident, 2);
  const post = (body: object) => network.post(`/v1/stations/${incident.station('RINSE')}/plan-wishes`, body).expect(201);
  await post(wishOf(incident, later!, 'not-before', { notBefore: '2026-05-09T12:00:00Z' }));
  await post(wishOf(incident, sooner!, 'first'));
  await planNow(server, network, incident);
  const startOf = async (id: string) => (await assignmentsOf(network, incident, `&itemId=${id}`))[0]!.startsAt;
  expect(await startOf(later!)).toBe('2026-05-09T12:00:00.000Z');
  expect(await startOf(sooner!)).toBe('2026-05-09T07:00:00.000Z');
});
