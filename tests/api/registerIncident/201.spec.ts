import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { incidentDocument, MORNING_MS, startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('registerIncident answers 201', () => {
  test('one document becomes the whole layout, with the ids made by us', async () => {
    const network = await server.network();
    const document = incidentDocument();
    const created = await network.post('/v1/incidents', document).expect(201);
    expect(created.headers).toMatchObject({ etag: '"1"', location: `/v1/incidents/${created.body.id}` });
    expect(created.body).toMatchObject({ name: document.name, floodAt: '2026-05-08T18:00:00.000Z', outdoorAirTempC: 24, outdoorRelativeHumidityPct: 90, state: 'open', version: 1, createdAt: new Date(MORNING_MS).toISOString() });

    const { body: layout } = await network.get(`/v1/incidents/${created.body.id}/layout`).expect(200);
    const given = document.sites[0];
    const [site] = layout.sites;
    expect(layout.sites).toHaveLength(1);
    expect(site.stations.map((station: { code: string }) => station.code).sort()).toEqual(given?.stations?.map((station) => station.code).sort());
    expect(site.stations.find((station: { code: string }) => station.code === 'RINSE')).toMatchObject({ zone: 'dirty', steps: ['rinse', 'stabilise'], capacity: 2, state: 'open', version: 1, openings: [{ opensAt: '2026-05-09T06:00:00.000Z', closesAt: '2026-05-09T20:00:00.000Z' }, {}] });
    expect(site.dryingRooms[0]).toMatchObject({ code: 'ROOM', humidityCapPct: 75, airTempC: 20, measuredAt: '2026-05-09T06:30:00.000Z', dehumidifiers: [{ code: 'D1', state: 'running' }] });
    expect(site.dryingRooms[0].dryingPlaces.map((place: { code: string; areaM2: number }) => [place.code, place.areaM2])).toEqual([['R1', 30], ['S1', 12]]);
    expect(site.freezers[0]).toMatchObject({ code: 'F1', volumeL: 300, setPointC: -18 });
    expect(layout.people.map((person: { code: string; shifts: unknown[] }) => [person.code, person.shifts.length])).toEqual([['P1', 2], ['P2', 2], ['P3', 2], ['P4', 2]]);
    expect(layout.people[2]).toMatchObject({ siteId: site.id, restrictions: ['no-mould'] });
    expect(layout.specialists).toMatchObject([{ code: 'SP1' }]);
  });

  test('a zone without a waiting area gets one, and a zone with one keeps its own', async () => {
    const network = await server.network();
    const incident = await network.incident((document) => {
      const site = document.sites[0];
      if (site) site.holdingAreas = [{ code: 'DOOR', name: 'Tables at the door', zone: 'dirty' }];
    });
    const areas = incident.layout.sites[0]?.holdingAreas.map((area) => [area.code, area.zone]);
    expect(areas).toEqual([['DOOR', 'dirty'], ['HOLD-clean', 'clean'], ['HOLD-cold', 'cold'], ['HOLD-quarantine', 'quarantine']]);
  });

  test('sending it again with its key answers the same incident and registers nothing', async () => {
    const network = await server.network();
    const key = { 'idempotency-key': '"0b1f7a52-93f4-4f9c-8f5b-0e1c5a1d2e3f"' };
    const first = await network.post('/v1/incidents', incidentDocument(), key).expect(201);
    const again = await network.post('/v1/incidents', incidentDocument(), key).expect(201);
    expect(again.headers).toMatchObject({ 'idempotency-replayed': 'true', etag: '"1"', location: first.headers['location'] });
    expect(again.body).toEqual(first.body);
    const { rows } = await server.admin.query('select count(*)::int as n from incident where network_id = $1', [network.networkId]);
    expect(rows).toEqual([{ n: 1 }]);
  });

  test('a document as large as the route takes is registered whole', async () => {
    const network = await server.network();
    const shifts = [9, 10, 11, 12].map((day) => ({ startsAt: `2026-05-${day < 10 ? '0' : ''}${day}T07:00:00Z`, endsAt: `2026-05-${day < 10 ? '0' : ''}${day}T13:00:00Z` }));
    const document = { ...incidentDocument(), people: Array.from({ length: 2_000 }, (_, n) => ({ code: `P${n}`, displayName: `Volunteer ${n}`, site: 'HALL', skills: ['rinsing'], shifts })) };
    expect(JSON.stringify(document).length).toBeGreaterThan(600_000);
    const created = await network.post('/v1/incidents', document).expect(201);
    const { rows } = await server.admin.query('select count(*)::int as shifts, count(distinct person_id)::int as people from shift where incident_id = $1', [created.body.id]);
    expect(rows).toEqual([{ shifts: 8_000, people: 2_000 }]);
    const layout = await network.get(`/v1/incidents/${created.body.id}/layout`).expect(200);
    expect(layout.body.people.at(-1)).toMatchObject({ code: 'P999', shifts: [{}, {}, {}, {}] });
  });

  test('the same document registered by two networks shares nothing', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const mine = await ours.incident();
    await theirs.incident();
    await theirs.get(`/v1/incidents/${mine.id}`).expect(404);
    await theirs.get(`/v1/incidents/${mine.id}/layout`).expect(404);
  });
});
