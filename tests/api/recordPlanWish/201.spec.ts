import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { testedQuilts, wishOf } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const wish = (incident: IncidentOnTest, itemId: string, kind: string, change: object = {}, headers: Record<string, string> = {}) => network.post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, itemId, kind, change), headers).expect(201);

/** A second station for the bath. */
function withTwoBaths(document: Parameters<typeof withBenches>[0]): void {
  withBenches(document);
  const stations = document.sites[0]!.stations!;
  stations.push({ ...stations.find(({ code }) => code === 'RINSE')!, code: 'RINSE2', name: 'More baths' });
}

describe('the next plan heeds', () => {
  test('what is put first: of things alike it begins before all others', async () => {
    const incident = await network.incident((document) => {
      withBenches(document);
      document.sites[0]!.stations!.find(({ code }) => code === 'RINSE')!.capacity = 1;
    });
    const items = await testedQuilts(network, incident, 4);
    await planNow(server, network, incident);
    const startOf = async (itemId: string) => (await assignmentsOf(network, incident, `&itemId=${itemId}`))[0]!.startsAt;
    const begins = new Map<string, string>();
    for (const id of items) begins.set(id, await startOf(id));
    const last = [...items].sort((a, b) => (begins.get(a)! < begins.get(b)! ? -1 : 1)).at(-1)!;
    const { body } = await wish(incident, last, 'first', {}, { 'accept-language': 'es' });
    expect(body.inWords).toMatch(/ va antes que todo lo que nadie ha puesto primero\.$/);
    // What begins within the hour stays as it is; here nobody has got ready for it.
    await network.put('/v1/calibration/planning/holdMin', { value: 0, reason: 'Nobody has got ready yet.', personId: incident.person('P1') }, { 'if-match': (await network.get('/v1/calibration').expect(200)).headers['etag'] as string }).expect(200);
    await planNow(server, network, incident);
    for (const id of items.filter((one) => one !== last)) expect((await startOf(last)) <= (await startOf(id))).toBe(true);
    expect(await startOf(last)).toBe(begins.get([...items].sort((a, b) => (begins.get(a)! < begins.get(b)! ? -1 : 1))[0]!));
  });

  test('a station that is ruled out for a step: it is not used for it, and for others as before', async () => {
    const incident = await network.incident(withTwoBaths);
    const [barred, free] = await testedQuilts(network, incident, 2);
    await wish(incident, barred!, 'bar-station', { stationId: incident.station('RINSE'), step: 'rinse' });
    await planNow(server, network, incident);
    const plan = await assignmentsOf(network, incident);
    const rinsed = (id: string) => plan.find(({ itemId, step }) => itemId === id && step === 'rinse')!.stationId;
    expect(rinsed(barred!)).toBe(incident.station('RINSE2'));
    expect([incident.station('RINSE'), incident.station('RINSE2')]).toContain(rinsed(free!));
  });

  test('a way that is ruled out: another is taken, and without any the item is listed with that as the reason', async () => {
    const incident = await network.incident(withBenches);
    const [item] = await testedQuilts(network, incident, 1);
    await planNow(server, network, incident);
    expect((await assignmentsOf(network, incident))[0]!.disposition).toBe('treat');
    await wish(incident, item!, 'bar-way', { disposition: 'treat' });
    await planNow(server, network, incident);
    expect(new Set((await assignmentsOf(network, incident)).map((one) => one.disposition))).toEqual(new Set(['hold-frozen']));
    for (const other of ['hold-frozen', 'hold-wet', 'refer', 'release']) await wish(incident, item!, 'bar-way', { disposition: other });
    await planNow(server, network, incident);
    expect(await assignmentsOf(network, incident)).toEqual([]);
    const { body } = await network.get(`/v1/incidents/${incident.id}/plan/unplanned`, { 'accept-language': 'es' }).expect(200);
    expect(body.items).toMatchObject([{ itemId: item, blockedBy: { kind: 'wish', text: 'alguien descartó todas las vías que tiene abiertas' } }]);
  });

  test('a moment before which nothing begins', async () => {
    const incident = await network.incident(withBenches);
    const [item] = await testedQuilts(network, incident, 1);
    await wish(incident, item!, 'not-before', { notBefore: '2026-05-09T11:20:00Z' });
    await planNow(server, network, incident);
    const [first] = await assignmentsOf(network, incident);
    expect(first!.startsAt).toBe('2026-05-09T11:30:00.000Z');
  });
});

test('the wish is kept with who, when and why, and in the audit', async () => {
  const incident = await network.incident(withBenches);
  const [item] = await testedQuilts(network, incident, 1);
  const { body, headers } = await wish(incident, item!, 'first', { reason: 'It is needed for a burial on Sunday.' });
  expect(body).toMatchObject({ wishedBy: { id: incident.person('P1') }, wishedAt: '2026-05-09T07:00:00.000Z', reason: 'It is needed for a burial on Sunday.', state: 'stands' });
  const { rows } = await server.admin.query('select operation, subject_kind, subject_id from audit_entry where network_id = $1 and request_id = $2', [network.networkId, headers['x-request-id']]);
  expect(rows).toEqual([{ operation: 'recordPlanWish', subject_kind: 'plan-wishes', subject_id: body.id }]);
});
