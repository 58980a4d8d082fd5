import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';
import { carryOut, request } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const reader = (network: TestNetwork, incident: IncidentOnTest) => {
  let minute = 0;
  /** The room starts at 20 °C, 60 % and has a cap of 75 %. */
  return (relativeHumidityPct: number, airTempC = 20) => network.post(`/v1/incidents/${incident.id}/drying-rooms/${incident.room('ROOM')}/readings`, { airTempC, relativeHumidityPct, measuredAt: new Date(Date.parse('2026-05-09T06:31:00Z') + 60_000 * (minute += 1)).toISOString() }).expect(201);
};

describe('recordRoomReading asks for a new plan', () => {
  test('when the room crosses its cap; a second reading while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const read = reader(network, incident);
    await expectOneRequest(server, incident.id, 'air of room ROOM: 20 °C, 84 %', { first: () => read(84), second: () => read(62) });
  });

  test('when the air moves by five points or two degrees, not by less', async () => {
    const network = await server.network();
    const [damper, warmer] = [await network.incident(), await network.incident()];
    const [readDamper, readWarmer] = [reader(network, damper), reader(network, warmer)];
    await readDamper(64);
    await readWarmer(60, 21.5);
    expect([await waitingRuns(server, damper.id), await waitingRuns(server, warmer.id)]).toEqual([[], []]);
    await readDamper(69);
    await readWarmer(60, 23.5);
    expect(await waitingRuns(server, damper.id)).toHaveLength(1);
    expect(await waitingRuns(server, warmer.id)).toHaveLength(1);
  });

  test('when small steps have led away from the air that the plan in force reckons with', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const read = reader(network, incident);
    await carryOut(server, network, await request(server, network, incident));
    await read(63);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
    await read(66);
    expect(await waitingRuns(server, incident.id)).toMatchObject([{ reason: 'air of room ROOM: 20 °C, 66 %' }]);
  });

  test('not by a late reading that does not become the air of the room', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.post(`/v1/incidents/${incident.id}/drying-rooms/${incident.room('ROOM')}/readings`, { airTempC: 30, relativeHumidityPct: 95, measuredAt: '2026-05-09T05:00:00Z' }).expect(201);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
