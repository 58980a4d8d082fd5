import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { testedQuilts, wishOf } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
let item: string;
let unplanned: string;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
  [item] = (await testedQuilts(network, incident, 1)) as [string];
  await planNow(server, network, incident);
  [unplanned] = (await testedQuilts(network, incident, 1)) as [string];
});
afterAll(() => server.close());

const post = (body: object, of = incident, by = network) => by.post(`/v1/incidents/${of.id}/plan-wishes`, body);
const digest = () => networkDigest(server.admin, network.networkId, ['idempotency_record', 'audit_entry']);

const refused: [string, () => object, number, string, string][] = [
  ['a person who is no lead', () => wishOf(incident, item, 'first', { personId: incident.person('P2') }), 422, 'command_refused', '#/personId'],
  ['a kind without its member', () => wishOf(incident, item, 'not-before'), 400, 'validation_failed', '#/notBefore'],
  ['a station for a wish of another kind', () => wishOf(incident, item, 'first', { stationId: incident.station('RINSE') }), 400, 'validation_failed', '#/stationId'],
  ['a moment that has passed', () => wishOf(incident, item, 'not-before', { notBefore: '2026-05-09T06:59:00Z' }), 422, 'command_refused', '#/notBefore'],
  ['a step that the station does not do', () => wishOf(incident, item, 'bar-station', { stationId: incident.station('RINSE'), step: 'blot' }), 422, 'command_refused', '#/step'],
  ['a station that the incident has not', () => wishOf(incident, item, 'bar-station', { stationId: incident.id }), 422, 'reference_unknown', '#/stationId'],
  ['a pin of what the plan does not hold', () => wishOf(incident, unplanned, 'pin'), 422, 'command_refused', '#/itemId'],
  ['a reason that says nothing', () => wishOf(incident, item, 'first', { reason: 'x' }), 400, 'validation_failed', '#/reason'],
];

test.each(refused)('%s is refused with what to correct, and changes nothing', async (_, body, status, code, pointer) => {
  const before = await digest();
  const answer = await post(body());
  expect([answer.status, answer.body.code]).toEqual([status, code]);
  expect(answer.body.errors.map((fault: { pointer: string }) => fault.pointer)).toContain(pointer);
  expect(await digest()).toEqual(before);
});

test("an item of another network or incident answers 404, as one that never was", async () => {
  const stranger = await server.network();
  const theirs = await stranger.incident();
  const elsewhere = await network.incident();
  const answers = [await post(wishOf(theirs, item, 'first'), theirs, stranger), await post(wishOf(elsewhere, item, 'first'), elsewhere), await post(wishOf(incident, incident.id, 'first'))];
  expect(answers.map(({ status, body }) => [status, body.code, body.detail])).toEqual(answers.map(() => [404, 'not_found', 'No item with this id is visible to your key.']));
});

test('a pin of what was to begin already is refused: ask for a new plan first', async () => {
  server.clock.set(Date.parse('2026-05-09T09:00:00Z'));
  try {
    const { body } = await post(wishOf(incident, item, 'pin')).expect(422);
    expect(body.detail).toMatch(/has passed.*Ask for a new plan first\.$/);
  } finally {
    server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
  }
});

test('the same wish stands once, and one of another kind beside it', async () => {
  await post(wishOf(incident, item, 'first')).expect(201);
  expect((await post(wishOf(incident, item, 'first')).expect(409)).body.code).toBe('already_exists');
  await post(wishOf(incident, item, 'bar-way', { disposition: 'refer' })).expect(201);
  await post(wishOf(incident, item, 'bar-way', { disposition: 'release' })).expect(201);
});

test('sent twice with one key it is done once', async () => {
  const key = { 'idempotency-key': '"0198b7a0-0000-7000-8000-00000000aa01"' };
  const body = wishOf(incident, unplanned, 'first');
  const first = await network.post(`/v1/incidents/${incident.id}/plan-wishes`, body, key).expect(201);
  const again = await network.post(`/v1/incidents/${incident.id}/plan-wishes`, body, key).expect(201);
  expect(again.headers['idempotency-replayed']).toBe('true');
  expect(again.body).toEqual(first.body);
});

test('a key that may only work at stations is refused', async () => {
  const key = await network.newKey({ scopes: ['station:work', 'item:read'] });
  const answer = await network.as(key).post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, item, 'first'));
  expect([answer.status, answer.body.code]).toEqual([403, 'scope_missing']);
});

test('in a closed incident nothing is wished of the plan', async () => {
  await server.admin.query("update incident set state = 'closed' where id = $1", [incident.id]);
  expect((await post(wishOf(incident, unplanned, 'bar-way', { disposition: 'refer' })).expect(409)).body.code).toBe('incident_closed');
});
