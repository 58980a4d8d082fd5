import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const path = () => `/v1/incidents/${incident.id}/sites/${incident.site()}/weather`;
const OBSERVED = { kind: 'observed', source: 'Office' };
const FORECAST = { kind: 'forecast', source: 'Office', issuedAt: '2026-05-09T12:00:00Z' };
const AIR = { validAt: '2026-05-09T11:00:00Z', airTempC: 14, relativeHumidityPct: 80 };

describe('recordWeather answers 422 to what cannot be, and keeps nothing', () => {
  test.each([
    ['Fahrenheit', OBSERVED, { airTempC: 77 }, 'temperature_fahrenheit', 'airTempC'],
    ['more than saturated', OBSERVED, { relativeHumidityPct: 101 }, 'humidity_impossible', 'relativeHumidityPct'],
    ['no humidity', OBSERVED, { relativeHumidityPct: null }, 'humidity_missing', 'relativeHumidityPct'],
    ['wind in another unit', OBSERVED, { windMPerS: 140 }, 'wind_impossible', 'windMPerS'],
    ['wind from nowhere', OBSERVED, { windMPerS: -2 }, 'wind_impossible', 'windMPerS'],
    ['an observation of the future', OBSERVED, { validAt: '2026-05-09T13:00:00Z' }, 'in_future', 'validAt'],
    ['an observation from long before the flood', OBSERVED, { validAt: '2025-05-09T13:00:00Z' }, 'before_flood', 'validAt'],
    ['a forecast of what was over', FORECAST, { validAt: '2026-05-09T10:59:00Z' }, 'before_issue', 'validAt'],
    ['a forecast of next month', FORECAST, { validAt: '2026-06-09T11:00:00Z' }, 'too_far_ahead', 'validAt'],
    ['words', OBSERVED, { airTempC: 'mild' }, 'not_a_number', 'airTempC'],
    ['a member that is no part of it', OBSERVED, { rain: 3 }, 'member_unknown', 'rain'],
  ])('%s', async (_what, body, change, code, member) => {
    const answer = await network.post(path(), { ...body, records: [{ ...AIR, ...change }] }).expect(422);
    expect(answer.body).toMatchObject({ code: 'measurement_refused', errors: [{ code, pointer: `#/records/0/${member}` }] });
    const { rows } = await server.admin.query('select 1 from weather_record where incident_id = $1', [incident.id]);
    expect(rows).toEqual([]);
  });

  test.each([
    ['a forecast without its issue', { ...FORECAST, issuedAt: null }, '#/issuedAt'],
    ['an observation with an issue', { ...OBSERVED, issuedAt: '2026-05-09T06:00:00Z' }, '#/issuedAt'],
    ['a forecast that was issued in the future', { ...FORECAST, issuedAt: '2026-05-09T12:06:00Z' }, '#/issuedAt'],
    ['no source', { ...OBSERVED, source: '' }, '#/source'],
  ])('%s is answered 400', async (_what, body, pointer) => {
    expect((await network.post(path(), { ...body, records: [AIR] }).expect(400)).body.errors).toMatchObject([{ pointer }]);
  });

  test('a bad record does not hold up the good ones', async () => {
    const other = await network.incident();
    const { body } = await network.post(`/v1/incidents/${other.id}/sites/${other.site()}/weather`, { ...OBSERVED, records: [{ ...AIR, airTempC: 77 }, AIR] }).expect(200);
    expect(body).toMatchObject({ accepted: 1, refused: 1 });
  });

  test('a site of another incident or network answers 404', async () => {
    const [sibling, theirs] = [await network.incident(), await server.network()];
    await network.post(`/v1/incidents/${incident.id}/sites/${sibling.site()}/weather`, { ...OBSERVED, records: [AIR] }).expect(404);
    await theirs.post(path(), { ...OBSERVED, records: [AIR] }).expect(404);
    await theirs.get(path()).expect(404);
  });
});
