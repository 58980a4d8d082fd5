import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('recordRoomReading answers 400', () => {
  test.each([
    ['a reading from the future', { airTempC: 22, relativeHumidityPct: 70, measuredAt: '2026-05-09T07:06:00Z' }, '#/measuredAt'],
    ['air that cannot be', { airTempC: 22, relativeHumidityPct: 104, measuredAt: '2026-05-09T06:50:00Z' }, '#/relativeHumidityPct'],
  ])('%s is refused and not kept', async (_what, reading, pointer) => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.post(`/v1/incidents/${incident.id}/drying-rooms/${incident.room('ROOM')}/readings`, reading).expect(400);
    expect(body.errors).toMatchObject([{ pointer }]);
    const { rows } = await server.admin.query('select count(*)::int as n from climate_reading where place_id = $1 and sequence > 1', [incident.room('ROOM')]);
    expect(rows).toEqual([{ n: 0 }]);
  });
});
