import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { at, send, sensor, stored } from '../support/climate.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
});
afterAll(() => server.close());

describe('recordReadings answers 409', () => {
  test('when all it holds contradicts what is kept; both values are named and the kept one stays', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await sensor(network, incident);
    const reading = { sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5, relativeHumidityPct: 64 };
    await send(network, incident, [reading]).expect(200);
    const { body } = await send(network, incident, [{ ...reading, airTempC: 25 }]).expect(409);
    expect(body).toMatchObject({ code: 'measurement_conflicts', errors: [{ code: 'conflicting', pointer: '#/readings/0/airTempC' }] });
    for (const value of ['21.5 °C', '25 °C']) expect(body.errors[0].detail).toContain(value);
    expect((await stored(server, incident)).map((row) => row.air_temp_c)).toEqual([21.5]);
  });

  test('in a closed incident', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await sensor(network, incident);
    await server.admin.query(`update incident set state = 'closed' where id = $1`, [incident.id]);
    expect((await send(network, incident, [{ sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5 }]).expect(409)).body.code).toBe('incident_closed');
  });
});
