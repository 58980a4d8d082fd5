import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { bells } from '../support/climate.js';
import { waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

/** Registered at 07:00 with 24 °C, 90 % outdoors; now it is noon. */
async function ready() {
  server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
  const network = await server.network();
  const incident = await network.incident();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  return { network, incident };
}
const send = (network: TestNetwork, incident: IncidentOnTest, body: object) => network.post(`/v1/incidents/${incident.id}/sites/${incident.site()}/weather`, { source: 'Selm Valley weather office', ...body });
const observed = (records: object[]) => ({ kind: 'observed', records });
const forecast = (issuedAt: string, records: object[]) => ({ kind: 'forecast', issuedAt, records });
const air = (validAt: string, airTempC = 14, relativeHumidityPct = 80, more: object = {}) => ({ validAt, airTempC, relativeHumidityPct, ...more });
const outdoor = async (network: TestNetwork, incident: IncidentOnTest) => {
  const { body } = await network.get(`/v1/incidents/${incident.id}`).expect(200);
  return [body.outdoorAirTempC, body.outdoorRelativeHumidityPct, body.version];
};

describe('recordWeather answers 200', () => {
  test('the newest observation becomes the outdoor air of the incident and asks for a plan when it moved much; a late one changes nothing', async () => {
    const { network, incident } = await ready();
    const { body } = await send(network, incident, observed([air('2026-05-09T11:00:00Z', 14, 80, { windMPerS: 3 }), air('2026-05-09T10:00:00Z', 12, 85)])).expect(200);
    expect(body).toMatchObject({ accepted: 2, refused: 0 });
    expect(await outdoor(network, incident)).toEqual([14, 80, 2]);
    expect(await waitingRuns(server, incident.id)).toMatchObject([{ reason: 'the weather changed' }]);
    await send(network, incident, observed([air('2026-05-09T10:30:00Z', 40, 20)])).expect(200);
    expect(await outdoor(network, incident)).toEqual([14, 80, 2]);
  });

  test('what somebody set by hand later than it was observed stays', async () => {
    const { network, incident } = await ready();
    await network.patch(`/v1/incidents/${incident.id}`, { outdoorAirTempC: 18, outdoorRelativeHumidityPct: 70 }, { 'if-match': '"1"' }).expect(200);
    await send(network, incident, observed([air('2026-05-09T11:00:00Z')])).expect(200);
    expect(await outdoor(network, incident)).toEqual([18, 70, 2]);
    server.clock.set(Date.parse('2026-05-09T13:00:00Z'));
    await send(network, incident, observed([air('2026-05-09T12:30:00Z')])).expect(200);
    expect(await outdoor(network, incident)).toEqual([14, 80, 3]);
  });

  test('48 hours of forecast from a partner leave the outdoor air as it is, and a later issue goes before an earlier one', async () => {
    const { network, incident } = await ready();
    const hours = (degrees: number) => Array.from({ length: 48 }, (_, hour) => air(new Date(Date.parse('2026-05-09T12:00:00Z') + hour * 3_600_000).toISOString(), degrees));
    expect((await send(network, incident, forecast('2026-05-09T12:00:00Z', hours(15))).expect(200)).body).toMatchObject({ accepted: 48 });
    // Sent late, issued earlier.
    expect((await send(network, incident, forecast('2026-05-09T06:00:00Z', hours(9))).expect(200)).body).toMatchObject({ accepted: 48 });
    expect(await outdoor(network, incident)).toEqual([24, 90, 1]);
    const { body } = await network.get(`/v1/incidents/${incident.id}/sites/${incident.site()}/weather?kind=forecast&limit=200`).expect(200);
    expect(body.items).toHaveLength(48);
    expect(new Set(body.items.map(({ airTempC }: { airTempC: number }) => airTempC))).toEqual(new Set([15]));
  });

  test('new weather rings for the rooms of its site alone, observed or foreseen; the same again rings for nothing', async () => {
    const { network, incident } = await ready();
    const room = incident.room('ROOM');
    const other = await network.incident();
    const workOff = () => server.admin.query("update outbox set done_at = clock_timestamp() where kind = 'climate.readings' and done_at is null");
    for (const weather of [observed([air('2026-05-09T11:00:00Z')]), forecast('2026-05-09T12:00:00Z', [air('2026-05-09T15:00:00Z')])]) {
      await workOff();
      await send(network, incident, weather).expect(200);
      expect([await bells(server, room), await bells(server, other.room('ROOM'))]).toEqual([1, 0]);
      await workOff();
      await send(network, incident, weather).expect(200);
      expect(await bells(server, room)).toBe(0);
    }
    await network.post(`/v1/incidents/${incident.id}/readings`, { readings: [{ placeKind: 'outdoors', place: 'HALL', measuredAt: '2026-05-09T11:30:00Z', airTempC: 15, relativeHumidityPct: 70 }] }).expect(200);
    expect(await bells(server, room)).toBe(1);
  });

  test('the same again is kept once, something else about the same hour is refused and both are named', async () => {
    const { network, incident } = await ready();
    await send(network, incident, observed([air('2026-05-09T11:00:00Z')])).expect(200);
    expect((await send(network, incident, observed([air('2026-05-09T11:00:00Z')])).expect(200)).body).toMatchObject({ accepted: 0, duplicate: 1 });
    const clash = await send(network, incident, observed([air('2026-05-09T11:00:00Z', 19), air('2026-05-09T11:30:00Z')])).expect(200);
    expect(clash.body).toMatchObject({ accepted: 1, conflicting: 1 });
    for (const value of ['14 °C', '19 °C']) expect(clash.body.rows[0].remarks[0].text).toContain(value);
    expect((await send(network, incident, observed([air('2026-05-09T11:00:00Z', 19)])).expect(409)).body.code).toBe('measurement_conflicts');
    // Another source may see it otherwise.
    await send(network, incident, { ...observed([air('2026-05-09T11:00:00Z', 19)]), source: 'The thermometer at the gate' }).expect(200);
  });

  test('of the same records sent many times at once each is kept once', async () => {
    const { network, incident } = await ready();
    const answers = await Promise.all(Array.from({ length: 5 }, () => send(network, incident, observed([air('2026-05-09T10:00:00Z'), air('2026-05-09T11:00:00Z')]))));
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200, 200]);
    expect(answers.reduce((sum, { body }) => sum + body.accepted, 0)).toBe(2);
  });
});
