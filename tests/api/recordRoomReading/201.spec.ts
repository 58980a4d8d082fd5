import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('recordRoomReading answers 201', () => {
  test('newer air becomes the air of the room; a late reading is kept and changes nothing else', async () => {
    const network = await server.network();
    const incident = await network.incident();
    server.clock.set(Date.parse('2026-05-09T15:00:00Z'));
    const path = `/v1/incidents/${incident.id}/drying-rooms/${incident.room('ROOM')}/readings`;
    const newer = await network.post(path, { airTempC: 22.5, relativeHumidityPct: 84, measuredAt: '2026-05-09T14:05:00Z' }).expect(201);
    expect(newer.body).toMatchObject({ becameCurrent: true, recordedAt: '2026-05-09T15:00:00.000Z' });
    const late = await network.post(path, { airTempC: 21, relativeHumidityPct: 62, measuredAt: '2026-05-09T13:00:00Z' }).expect(201);
    expect(late.body.becameCurrent).toBe(false);
    const { body } = await network.get(`/v1/incidents/${incident.id}/layout`);
    expect(body.sites[0].dryingRooms[0]).toMatchObject({ airTempC: 22.5, relativeHumidityPct: 84, measuredAt: '2026-05-09T14:05:00.000Z', version: 2 });
    const { rows } = await server.admin.query('select count(*)::int as n from climate_reading where place_id = $1 and sequence > 1', [incident.room('ROOM')]);
    expect(rows).toEqual([{ n: 2 }]);
  });

  test('readings that arrive together leave the newest, whatever the order', async () => {
    const network = await server.network();
    const incident = await network.incident();
    server.clock.set(Date.parse('2026-05-09T15:00:00Z'));
    const path = `/v1/incidents/${incident.id}/drying-rooms/${incident.room('ROOM')}/readings`;
    const minutes = [11, 14, 10, 13, 12];
    await Promise.all(minutes.map((minute) => network.post(path, { airTempC: minute, relativeHumidityPct: 70, measuredAt: `2026-05-09T14:${minute}:00Z` }).expect(201)));
    const { body } = await network.get(`/v1/incidents/${incident.id}/layout`);
    expect(body.sites[0].dryingRooms[0].airTempC).toBe(14);
  });
});
