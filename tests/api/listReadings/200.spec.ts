import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { at, send, sensor } from '../support/climate.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
let sensorId: string;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  network = await server.network();
  incident = await network.incident();
  sensorId = await sensor(network, incident);
  await send(network, incident, [
    { sensor: 'T-1', measuredAt: at('10:20'), airTempC: 21.2, relativeHumidityPct: 62 },
    { sensor: 'T-1', measuredAt: at('10:00'), airTempC: 21, relativeHumidityPct: 62 },
    { sensor: 'T-1', measuredAt: at('10:40'), airTempC: 45.5, relativeHumidityPct: 62 },
    { placeKind: 'drying-room', place: 'ROOM', measuredAt: at('10:20'), airTempC: 20.8, relativeHumidityPct: 64 },
    { placeKind: 'freezer', place: 'F1', measuredAt: at('10:10'), airTempC: -18 },
  ]).expect(200);
});
afterAll(() => server.close());

interface Reading {
  measuredAt: string;
  airTempC: number;
  sequence: number;
  state: string;
  source: string;
  doubt: { code: string; text: string } | null;
}
const list = async (query: string): Promise<{ items: Reading[]; nextCursor: string | null }> => (await network.get(`/v1/incidents/${incident.id}/readings?${query}`).expect(200)).body;
const room = () => `placeKind=drying-room&placeId=${incident.room('ROOM')}`;

describe('listReadings answers 200', () => {
  test('with the latest measured first; the air that a room was registered with is its first reading', async () => {
    const { items } = await list(room());
    expect(items.map(({ measuredAt, airTempC, source, state }) => [measuredAt.slice(11, 16), airTempC, source, state])).toEqual([
      ['10:40', 45.5, 'sensor', 'doubtful'], ['10:20', 20.8, 'hand', 'accepted'], ['10:20', 21.2, 'sensor', 'accepted'], ['10:00', 21, 'sensor', 'accepted'], ['06:30', 20, 'hand', 'accepted'],
    ]);
    expect(items.map(({ sequence }) => sequence).sort()).toEqual([1, 2, 3, 4, 5]);
    expect(items[0]?.doubt).toMatchObject({ code: 'unit', text: expect.stringContaining('°F') });
  });

  test('of a span of time, from included and to excluded', async () => {
    const { items } = await list(`${room()}&from=2026-05-09T10:00:00Z&to=2026-05-09T10:20:00Z`);
    expect(items.map(({ airTempC }) => airTempC)).toEqual([21]);
  });

  test('of a sensor, of a state, and of the whole incident', async () => {
    expect((await list(`sensorId=${sensorId}`)).items).toHaveLength(3);
    expect((await list('state=doubtful')).items.map(({ airTempC }) => airTempC)).toEqual([45.5]);
    expect((await list('')).items).toHaveLength(6);
  });

  test('by pages that join without a gap, also where moments are equal', async () => {
    const whole = (await list('')).items;
    const paged: Reading[] = [];
    for (let cursor = ''; ; ) {
      const page = await list(`limit=1${cursor}`);
      paged.push(...page.items);
      if (page.nextCursor === null) break;
      cursor = `&cursor=${encodeURIComponent(page.nextCursor)}`;
    }
    expect(paged).toEqual(whole);
  });

  test('a place takes both its kind and its id', async () => {
    const { body } = await network.get(`/v1/incidents/${incident.id}/readings?placeKind=freezer`).expect(400);
    expect(body.errors).toMatchObject([{ parameter: 'placeId' }]);
  });

  test("nothing of another network's incident", async () => {
    await (await server.network()).get(`/v1/incidents/${incident.id}/readings`).expect(404);
  });
});
