import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('registerSensor', () => {
  test.each(['drying-room', 'freezer', 'zone', 'outdoors'])('registers one of every kind of place: %s', async (placeKind) => {
    const network = await server.network();
    const incident = await network.incident();
    const { body: layout } = await network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
    const placeId = { 'drying-room': incident.room('ROOM'), freezer: incident.freezer('F1'), zone: layout.sites[0].zones[0].id, outdoors: incident.site() }[placeKind];
    const { body, headers } = await network.post(`/v1/incidents/${incident.id}/sensors`, { code: 'T-1', name: 'By the stage', placeKind, placeId }).expect(201);
    expect(body).toMatchObject({ code: 'T-1', placeKind, placeId, state: 'in-service', withdrawnAt: null, expectedEveryMinutes: null, version: 1 });
    expect(headers['etag']).toBe('"1"');
  });

  test('says how often it is expected to report, within a minute and a week', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const one = (code: string, expectedEveryMinutes: unknown) => network.post(`/v1/incidents/${incident.id}/sensors`, { code, name: 'Thermometer', placeKind: 'freezer', placeId: incident.freezer('F1'), expectedEveryMinutes });
    expect((await one('T-1', 480).expect(201)).body.expectedEveryMinutes).toBe(480);
    for (const absurd of [0, -5, 10_081, 7.5, 'hourly']) {
      expect((await one('T-2', absurd).expect(400)).body.errors).toMatchObject([{ pointer: '#/expectedEveryMinutes' }]);
    }
    const { body } = await network.get(`/v1/incidents/${incident.id}/sensors`).expect(200);
    expect(body.items).toMatchObject([{ code: 'T-1', expectedEveryMinutes: 480 }]);
  });

  test('a code that is taken answers 409, and of many at once one is registered', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const one = () => network.post(`/v1/incidents/${incident.id}/sensors`, { code: 'T-1', name: 'One', placeKind: 'freezer', placeId: incident.freezer('F1') });
    const answers = await Promise.all([one(), one(), one()]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    // The code is taken in its incident alone.
    const other = await network.incident();
    await network.post(`/v1/incidents/${other.id}/sensors`, { code: 'T-1', name: 'One', placeKind: 'freezer', placeId: other.freezer('F1') }).expect(201);
  });

  test('a place of another kind, incident or network answers 422', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [incident, sibling, foreign] = [await ours.incident(), await ours.incident(), await theirs.incident()];
    for (const place of [{ placeKind: 'freezer', placeId: incident.room('ROOM') }, { placeKind: 'drying-room', placeId: sibling.room('ROOM') }, { placeKind: 'drying-room', placeId: foreign.room('ROOM') }]) {
      const { body } = await ours.post(`/v1/incidents/${incident.id}/sensors`, { code: 'T-1', name: 'One', ...place }).expect(422);
      expect(body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/placeId' }] });
    }
    await theirs.post(`/v1/incidents/${incident.id}/sensors`, { code: 'T-1', name: 'One', placeKind: 'drying-room', placeId: incident.room('ROOM') }).expect(404);
  });
});
