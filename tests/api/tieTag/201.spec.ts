import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, reserveTestTags, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('every place that keeps things has its tag: who tied it and when is on record, and a scan leads to the place', async () => {
  const places = [
    { kind: 'station', id: incident.station('RINSE') }, { kind: 'holding', id: incident.holding('dirty') }, { kind: 'drying-place', id: incident.place('R1') }, { kind: 'freezer', id: incident.freezer('F1') },
  ];
  const tags = await reserveTestTags(network, incident, places.length, 'place');
  for (const [index, place] of places.entries()) {
    const tied = await network.post(`/v1/tags/${tags[index]}/ties`, { place }).expect(201);
    expect(tied.body).toMatchObject({ tag: tags[index], kind: 'place', state: 'in-use', tiedTo: place, tiedAt: '2026-05-09T07:00:00.000Z', place, inUse: tags[index], replacedBy: null });
    const found = await network.get(`/v1/tags/${tags[index]?.toLowerCase()}`).expect(200);
    expect(found.body).toEqual(tied.body);
    expect(found.body.place.name.length).toBeGreaterThan(0);
    expect(found.body.tiedBy).toMatch(/^[0-9a-f-]{36}$/);
  }
});

test('a volunteer has a badge', async () => {
  const [tag] = await reserveTestTags(network, incident, 1, 'person');
  const { body } = await network.post(`/v1/tags/${tag}/ties`, { personId: incident.person('P1') }).expect(201);
  expect(body).toMatchObject({ kind: 'person', personId: incident.person('P1'), tiedTo: { kind: 'person', id: incident.person('P1') }, item: null, place: null });
});

test('the same command sent twice ties once and answers the same', async () => {
  const [tag] = await reserveTestTags(network, incident, 1, 'person');
  const key = { 'idempotency-key': '0198b7a0-0000-7000-8000-00000000aa01' };
  const body = { personId: incident.person('P2') };
  const first = await network.post(`/v1/tags/${tag}/ties`, body, key).expect(201);
  const again = await network.post(`/v1/tags/${tag}/ties`, body, key).expect(201);
  expect(again.body).toEqual(first.body);
  expect(again.headers['idempotency-replayed']).toBe('true');
});
