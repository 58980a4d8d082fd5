import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { at, roomAir, send, sensor, stored } from '../support/climate.js';
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
  return { network, incident };
}
const reading = (clock: string, airTempC: number, relativeHumidityPct = 62) => ({ sensor: 'T-1', measuredAt: at(clock), airTempC, relativeHumidityPct });

describe('recordReadings keeps what is improbable as doubtful', () => {
  test('it is not reckoned with: the air of the room stays, and no plan is asked for', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [reading('10:00', 20.5)]).expect(200);
    const { body } = await send(network, incident, [reading('10:05', 38)]).expect(200);
    expect(body).toMatchObject({ accepted: 0, doubtful: 1, rows: [{ outcome: 'doubtful', becameCurrent: false, remarks: [{ code: 'jump' }] }] });
    expect(await roomAir(server, incident)).toMatchObject({ air_temp_c: 20.5 });
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });

  test('a second reading like it is believed and becomes the air of the room', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [reading('10:00', 20.5), reading('10:05', 38)]).expect(200);
    const { body } = await send(network, incident, [reading('10:10', 38.2)]).expect(200);
    expect(body.rows).toMatchObject([{ outcome: 'accepted', becameCurrent: true }]);
    expect(await waitingRuns(server, incident.id)).toHaveLength(1);
  });

  test('a late reading can clear a doubt, and then that air is the newest', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [reading('10:00', 20.5), reading('10:12', 38)]).expect(200);
    expect((await stored(server, incident)).map((row) => row.doubt)).toEqual([null, 'jump']);
    // It warmed steadily: the readings in between came later.
    const { body } = await send(network, incident, [reading('10:04', 27), reading('10:08', 33)]).expect(200);
    expect(body).toMatchObject({ accepted: 2 });
    expect((await stored(server, incident)).map((row) => row.doubt)).toEqual([null, null, null, null]);
    expect(await roomAir(server, incident)).toMatchObject({ air_temp_c: 38 });
  });

  test('a late reading can put the newest in doubt, and then the air of the room goes back to the last believed one', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [reading('09:00', 20.5), reading('10:05', 38)]).expect(200);
    expect(await roomAir(server, incident)).toMatchObject({ air_temp_c: 38 });
    await send(network, incident, [reading('10:04', 20.6)]).expect(200);
    expect((await stored(server, incident)).map((row) => row.doubt)).toEqual([null, null, 'jump']);
    expect(await roomAir(server, incident)).toMatchObject({ air_temp_c: 20.6 });
  });

  test('outdoors, too, the air of the incident goes back to the last believed one when a reading falls into doubt', async () => {
    const { network, incident } = await ready();
    await sensor(network, incident, 'OUT', { placeKind: 'outdoors', placeId: incident.site() });
    server.clock.set(Date.parse('2026-05-09T14:00:00Z'));
    const outdoors = (clock: string, airTempC: number) => ({ sensor: 'OUT', measuredAt: at(clock), airTempC, relativeHumidityPct: 80 });
    const airOutside = async () => (await network.get(`/v1/incidents/${incident.id}`).expect(200)).body.outdoorAirTempC as number;
    await send(network, incident, [outdoors('12:10', 14)]).expect(200);
    await send(network, incident, [outdoors('13:10', 33)]).expect(200);
    expect(await airOutside()).toBe(33);
    // Late: a minute before it was as cool as ever, so the newest is a jump.
    await send(network, incident, [outdoors('13:09', 14.5)]).expect(200);
    expect((await stored(server, incident)).map((row) => row.doubt)).toEqual([null, null, 'jump']);
    expect(await airOutside()).toBe(14.5);
    // What is older than that changes nothing.
    await send(network, incident, [outdoors('12:00', 13)]).expect(200);
    expect(await airOutside()).toBe(14.5);
    await send(network, incident, [outdoors('13:12', 33.2)]).expect(200);
    expect(await airOutside()).toBe(33.2);
  });

  test('saturated air for hours beside a running dehumidifier is in doubt, and not once the machine has tripped', async () => {
    const { network, incident } = await ready();
    const soaked = Array.from({ length: 29 }, (_, n) => ({ sensor: 'T-1', measuredAt: new Date(Date.parse(at('03:00')) + n * 15 * 60_000).toISOString(), airTempC: 20 + n / 100, relativeHumidityPct: 100 }));
    const { body } = await send(network, incident, soaked).expect(200);
    expect(body.rows.at(-1)).toMatchObject({ outcome: 'doubtful', remarks: [{ code: 'saturated' }] });
    const other = await ready();
    await server.admin.query(`update dehumidifier set state = 'tripped' where incident_id = $1`, [other.incident.id]);
    expect((await send(other.network, other.incident, soaked).expect(200)).body).toMatchObject({ accepted: 29, doubtful: 0 });
  });

  test('a person is believed: what somebody read is not doubted', async () => {
    const { network, incident } = await ready();
    const hand = (clock: string, airTempC: number) => ({ placeKind: 'drying-room', place: 'ROOM', measuredAt: at(clock), airTempC, relativeHumidityPct: 62 });
    expect((await send(network, incident, [hand('10:00', 20), hand('10:01', 33)]).expect(200)).body).toMatchObject({ accepted: 2 });
    expect(await roomAir(server, incident)).toMatchObject({ air_temp_c: 33 });
  });
});
