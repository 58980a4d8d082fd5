import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { at, type SentReading, send, sensor, stored } from '../support/climate.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  network = await server.network();
  incident = await network.incident();
  await sensor(network, incident);
  await sensor(network, incident, 'OLD');
  const { body } = await network.get(`/v1/incidents/${incident.id}/sensors`).expect(200);
  const old = body.items.find(({ code }: { code: string }) => code === 'OLD');
  await network.patch(`/v1/incidents/${incident.id}/sensors/${old.id}`, { state: 'withdrawn' }, { 'if-match': '"1"' }).expect(200);
});
afterAll(() => server.close());

const GOOD = { sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5, relativeHumidityPct: 64 };

/** Each with what is wrong about it. */
const BAD: [string, SentReading, string, string][] = [
  ['hotter than any room, perhaps Fahrenheit', { ...GOOD, airTempC: 70.2 }, 'temperature_fahrenheit', 'airTempC'],
  ['perhaps kelvin', { ...GOOD, airTempC: 294.6 }, 'temperature_kelvin', 'airTempC'],
  ['colder than any freezer', { ...GOOD, airTempC: -70 }, 'temperature_impossible', 'airTempC'],
  ['a broken thermometer', { ...GOOD, airTempC: 850 }, 'temperature_impossible', 'airTempC'],
  ['more than saturated', { ...GOOD, relativeHumidityPct: 104 }, 'humidity_impossible', 'relativeHumidityPct'],
  ['less than no humidity', { ...GOOD, relativeHumidityPct: -3 }, 'humidity_impossible', 'relativeHumidityPct'],
  ['a fraction instead of percent', { ...GOOD, relativeHumidityPct: 0.64 }, 'humidity_fraction', 'relativeHumidityPct'],
  ['the future', { ...GOOD, measuredAt: '2026-05-09T12:06:00Z' }, 'in_future', 'measuredAt'],
  ['long before the flood', { ...GOOD, measuredAt: '2020-01-01T00:00:00Z' }, 'before_flood', 'measuredAt'],
  ['a time without an offset', { ...GOOD, measuredAt: '2026-05-09T10:30:00' }, 'time_unreadable', 'measuredAt'],
  ['a day that is none', { ...GOOD, measuredAt: '2026-02-30T10:30:00Z' }, 'date_impossible', 'measuredAt'],
  ['no time', { ...GOOD, measuredAt: null }, 'time_missing', 'measuredAt'],
  ['no temperature', { ...GOOD, airTempC: undefined }, 'temperature_missing', 'airTempC'],
  ['NaN', { ...GOOD, airTempC: 'NaN' }, 'not_a_number', 'airTempC'],
  ['words', { ...GOOD, airTempC: 'warm' }, 'not_a_number', 'airTempC'],
  ['a number as text', { ...GOOD, airTempC: '21.5' }, 'not_a_number', 'airTempC'],
  ['a unit with the number', { ...GOOD, airTempC: '21.5 °C' }, 'unit_in_cell', 'airTempC'],
  ['a list', { ...GOOD, relativeHumidityPct: [64] }, 'not_a_number', 'relativeHumidityPct'],
  ['truth', { ...GOOD, relativeHumidityPct: true }, 'not_a_number', 'relativeHumidityPct'],
  ['an unknown sensor', { ...GOOD, sensor: 'T-9' }, 'sensor_unknown', 'sensor'],
  ['a sensor out of use', { ...GOOD, sensor: 'OLD', measuredAt: '2026-05-09T12:00:00Z' }, 'sensor_withdrawn', 'sensor'],
  ['neither sensor nor place', { ...GOOD, sensor: '' }, 'where_missing', 'sensor'],
  ['both sensor and place', { ...GOOD, placeKind: 'drying-room', place: 'ROOM' }, 'where_twice', 'place'],
  ['an unknown place', { ...GOOD, sensor: undefined, placeKind: 'freezer', place: 'F9' }, 'place_unknown', 'place'],
  ['an unknown kind of place', { ...GOOD, sensor: undefined, placeKind: 'cupboard', place: 'F1' }, 'place_kind_unknown', 'placeKind'],
  ['a member that is no part of a reading', { ...GOOD, dewPointC: 14 }, 'member_unknown', 'dewPointC'],
];

describe('recordReadings answers 422 when nothing could be kept', () => {
  test.each(BAD)('%s', async (_what, reading, code, member) => {
    const before = await networkDigest(server.admin, network.networkId, ['idempotency_record']);
    const { body } = await send(network, incident, [reading]).expect(422);
    expect(body).toMatchObject({ code: 'measurement_refused', errors: [{ code, pointer: `#/readings/0/${member}` }], rows: [{ row: 1, outcome: 'refused', id: null, remarks: [{ code, member }] }] });
    expect(body.errors).toHaveLength(1);
    expect(body.errors[0].detail.length).toBeGreaterThan(20);
    expect(await networkDigest(server.admin, network.networkId, ['idempotency_record'])).toEqual(before);
  });

  test('everything that is wrong about a row is said at once', async () => {
    const { body } = await send(network, incident, [{ sensor: 'T-9', measuredAt: 'noon', airTempC: 'x', relativeHumidityPct: '60 %' }]).expect(422);
    expect(body.errors.map(({ pointer, code }: { pointer: string; code: string }) => `${pointer} ${code}`)).toEqual(['#/readings/0/sensor sensor_unknown', '#/readings/0/measuredAt time_unreadable', '#/readings/0/airTempC not_a_number', '#/readings/0/relativeHumidityPct unit_in_cell']);
  });

  test('the person at the screen is told in her language, the developer in English', async () => {
    const { body } = await send(network, incident, [{ ...GOOD, airTempC: 70.2 }], { 'accept-language': 'es' }).expect(422);
    expect(body.rows[0].remarks[0].text).toMatch(/^70.2 °C es demasiado calor/);
    expect(body.errors[0].detail).toMatch(/^70.2 °C is too hot/);
  });

  test('one bad row beside a good one is refused and the good one kept, whatever the bad one is', async () => {
    const rows = BAD.map(([, reading]) => reading);
    const { body } = await send(network, incident, [...rows, { ...GOOD, measuredAt: at('11:00') }]).expect(200);
    expect(body).toMatchObject({ accepted: 1, refused: rows.length });
    expect((await stored(server, incident)).map((row) => row.measured_at.toISOString())).toEqual([at('11:00')]);
  });
});
