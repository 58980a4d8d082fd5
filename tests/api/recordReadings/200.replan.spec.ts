import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { carryOut, request } from '../../unit/plan-problem/support/runs.js';
import { at, send, sensor } from '../support/climate.js';
import { waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
});
afterAll(() => server.close());

async function ready() {
  const network = await server.network();
  const incident = await network.incident();
  await sensor(network, incident);
  await sensor(network, incident, 'OUT', { placeKind: 'outdoors', placeId: incident.site() });
  return { network, incident };
}
/** The room starts at 20 °C, 60 %. */
const room = (clock: string, relativeHumidityPct: number) => ({ sensor: 'T-1', measuredAt: at(clock), airTempC: 20, relativeHumidityPct });
const outdoors = (clock: string, airTempC: number, relativeHumidityPct = 90) => ({ sensor: 'OUT', measuredAt: at(clock), airTempC, relativeHumidityPct });

describe('recordReadings asks for a new plan', () => {
  test('when the air of a room moves by much, once for a batch', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [room('10:00', 64), room('10:30', 70), room('11:00', 76)]).expect(200);
    expect(await waitingRuns(server, incident.id)).toMatchObject([{ reason: 'air of room ROOM: 20 °C, 76 %' }]);
  });

  test('not when it moves by little, nor for what is late', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [room('11:00', 63)]).expect(200);
    await send(network, incident, [room('09:00', 80)]).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });

  test('when the air outdoors moves by much from what the plan in force reckons with; small steps add up', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [outdoors('12:00', 24.5)]).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
    await carryOut(server, network, await request(server, network, incident));
    await send(network, incident, [outdoors('12:01', 26)]).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
    await send(network, incident, [outdoors('12:02', 27)]).expect(200);
    expect(await waitingRuns(server, incident.id)).toMatchObject([{ reason: 'the weather changed' }]);
  });
});
