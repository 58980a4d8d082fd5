import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('recordRoomReading answers 404', () => {
  test("another network's room takes no reading of ours", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [incident, own] = [await ours.incident(), await theirs.incident()];
    const reading = { airTempC: 22, relativeHumidityPct: 70, measuredAt: '2026-05-09T06:50:00Z' };
    await theirs.post(`/v1/incidents/${incident.id}/drying-rooms/${incident.room('ROOM')}/readings`, reading).expect(404);
    await theirs.post(`/v1/incidents/${own.id}/drying-rooms/${incident.room('ROOM')}/readings`, reading).expect(404);
    const { rows } = await server.admin.query('select version from drying_room where id = $1', [incident.room('ROOM')]);
    expect(rows).toEqual([{ version: 1 }]);
  });
});
