import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { testedQuilts, wishOf } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
let item: string;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident((document) => {
    document.sites.push({ code: 'BARN', name: 'Far barn', zones: ['dirty'] });
    document.people!.push({ code: 'P9', displayName: 'Lead of the barn', site: 'BARN', skills: ['lead'] });
  });
  [item] = (await testedQuilts(network, incident, 1)) as [string];
});
afterAll(() => server.close());

const post = (body: object, station = incident.station('RINSE'), by: Pick<TestNetwork, 'post'> = network) => by.post(`/v1/stations/${station}/plan-wishes`, body);

test.each([
  ['a person who is no lead', { personId: 'P2' }, 'not_a_lead'],
  ['the lead of another site', { personId: 'P9' }, 'not_of_the_site'],
])('%s may not refuse the work of a station', async (_, { personId }, code) => {
  const { body } = await post(wishOf(incident, item, 'first', { personId: incident.person(personId) })).expect(422);
  expect(body).toMatchObject({ code: 'command_refused', errors: [{ code, pointer: '#/personId' }] });
});

test('a station or an item of another network answers 404', async () => {
  const stranger = await server.network();
  const theirs = await stranger.incident();
  expect((await post(wishOf(theirs, item, 'first'), incident.station('RINSE'), stranger).expect(404)).body.detail).toBe('No station with this id is visible to your key.');
  expect((await post(wishOf(theirs, item, 'first'), theirs.station('RINSE'), stranger).expect(404)).body.detail).toBe('No item with this id is visible to your key.');
});

test('what is for a coordinator alone is refused: a pin, a way, another station', async () => {
  for (const [kind, change] of [['pin', {}], ['bar-way', { disposition: 'treat' }], ['bar-station', { stationId: incident.station('BLOT') }]] as const) await post(wishOf(incident, item, kind, change)).expect(400);
});

test("a coordinator's key without the scope of stations is refused", async () => {
  const key = await network.newKey({ scopes: ['plan:write', 'item:read'] });
  expect((await post(wishOf(incident, item, 'first'), undefined, network.as(key)).expect(403)).body.code).toBe('scope_missing');
});
