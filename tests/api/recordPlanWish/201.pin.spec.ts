import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { type Assignment, assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { testedQuilts, wishOf } from '../support/plan-wishes.js';
import { waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const of = (plan: Assignment[], itemId: string) => plan.filter((one) => one.itemId === itemId).map(({ step, stationId, personIds, dryingPlaceId, startsAt }) => ({ step, stationId, personIds, dryingPlaceId, startsAt }));
const wishesOf = async (incident: IncidentOnTest, query = '') => (await network.get(`/v1/incidents/${incident.id}/plan-wishes${query}`).expect(200)).body.items;

test('a pinned item stays just where it was, although all others make way for what was put first', async () => {
  const incident = await network.incident(withBenches);
  const items = await testedQuilts(network, incident, 5);
  await planNow(server, network, incident);
  const before = await assignmentsOf(network, incident);
  // Two begin at one moment; with one bath left the later of them by id would make way.
  const begins = (id: string) => of(before, id)[0]!.startsAt;
  const last = [...items].sort().reverse().find((id) => items.some((other) => other < id && begins(other) === begins(id)))!;
  const pin = await network.post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, last, 'pin')).expect(201);
  expect(pin.body).toMatchObject({ kind: 'pin', state: 'stands', itemId: last, reason: 'The owner asked for it.', wishedBy: { id: incident.person('P1'), name: 'Lead one' }, askedAtStationId: null, withdrawn: null, lapsed: null });
  expect(pin.body.pinned.map(({ step, startsAt }: Assignment) => ({ step, startsAt }))).toEqual(of(before, last).map(({ step, startsAt }) => ({ step, startsAt })));
  expect(pin.body.inWords).toMatch(/^\S+ is done just as it was planned/);
  expect(await waitingRuns(server, incident.id)).toMatchObject([{ reason: expect.stringMatching(/ is to be done just as it was planned$/), bells: 1 }]);
  // The baths take the first of all away from everything else.
  await network.patch(`/v1/incidents/${incident.id}/stations/${incident.station('RINSE')}`, { capacity: 1 }, { 'if-match': '"1"' }).expect(200);
  await testedQuilts(network, incident, 2, { significance: 'irreplaceable' });
  await planNow(server, network, incident);
  const after = await assignmentsOf(network, incident);
  expect(of(after, last)).toEqual(of(before, last));
  expect(await wishesOf(incident)).toMatchObject([{ id: pin.body.id, state: 'stands' }]);
});

test('a pin that cannot hold any more ends with the reason, and the item is planned without it', async () => {
  const incident = await network.incident((document) => {
    withBenches(document);
    const stations = document.sites[0]!.stations!;
    stations.push({ ...stations.find(({ code }) => code === 'BLOT')!, code: 'BLOT2', name: 'More blotting tables' });
  });
  const [item] = await testedQuilts(network, incident, 1);
  await planNow(server, network, incident);
  const before = await assignmentsOf(network, incident);
  const blot = before.find(({ step }) => step === 'blot')!;
  await network.post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, item!, 'pin')).expect(201);
  await network.patch(`/v1/incidents/${incident.id}/stations/${blot.stationId}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
  await planNow(server, network, incident);
  const after = await assignmentsOf(network, incident);
  expect(after.find(({ step }) => step === 'blot')!.stationId).not.toBe(blot.stationId);
  expect(await wishesOf(incident)).toEqual([]);
  expect(await wishesOf(incident, '?state=ended')).toMatchObject([{ state: 'lapsed', lapsed: { at: '2026-05-09T07:00:00.000Z', why: 'the station that was pinned is not there any more' } }]);
});

test('a pin at a time when nobody is there any more falls, and the item is planned without it or listed with what it lacks', async () => {
  const incident = await network.incident(withBenches);
  const [item] = await testedQuilts(network, incident, 1);
  await planNow(server, network, incident);
  await network.post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, item!, 'pin')).expect(201);
  // Nobody is there any more when it was to be done.
  const { body: layout } = await network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
  for (const { shifts: [today] } of layout.people) await network.patch(`/v1/incidents/${incident.id}/shifts/${today.id}`, { endsAt: '2026-05-09T07:01:00Z' }, { 'if-match': '"1"' }).expect(200);
  await planNow(server, network, incident);
  expect(await wishesOf(incident, '?state=ended')).toMatchObject([{ state: 'lapsed', lapsed: { why: 'what it needs is shut or taken by something else at the time that was pinned' } }]);
  const { body } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
  expect(body.inTime.items + body.notInTime.items).toBe(1);
  expect(body.blocked.map(({ kind }: { kind: string }) => kind)).not.toContain('pin');
});
