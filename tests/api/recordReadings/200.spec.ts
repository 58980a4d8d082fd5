import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { at, bells, roomAir, send, sensor, stored } from '../support/climate.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
});
afterAll(() => server.close());

async function ready() {
  const network = await server.network();
  const incident = await network.incident();
  return { network, incident, sensorId: await sensor(network, incident) };
}

describe('recordReadings answers 200', () => {
  test('the newest believed reading becomes the air of the room; a late one is kept and changes nothing', async () => {
    const { network, incident, sensorId } = await ready();
    const { body } = await send(network, incident, [
      { sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5, relativeHumidityPct: 64 },
      { sensor: sensorId, measuredAt: at('10:15'), airTempC: 21, relativeHumidityPct: 62 },
    ]).expect(200);
    expect(body).toMatchObject({ accepted: 2, doubtful: 0, duplicate: 0, conflicting: 0, refused: 0 });
    expect(body.rows).toMatchObject([
      { row: 1, outcome: 'accepted', late: false, becameCurrent: true, remarks: [] },
      { row: 2, outcome: 'accepted', late: true, becameCurrent: false, remarks: [] },
    ]);
    expect(await roomAir(server, incident)).toMatchObject({ air_temp_c: 21.5, relative_humidity_pct: 64, version: 2 });
    expect((await stored(server, incident)).map(({ source, sequence, state }) => [source, sequence, state])).toEqual([['sensor', '3', 'accepted'], ['sensor', '2', 'accepted']]);
  });

  test('the same reading again, in the same request or the next, is kept once and is no fault', async () => {
    const { network, incident } = await ready();
    const reading = { sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5, relativeHumidityPct: 64 };
    const first = await send(network, incident, [reading, { ...reading, measuredAt: '2026-05-09T12:30:00+02:00' }]).expect(200);
    expect(first.body).toMatchObject({ accepted: 1, duplicate: 1 });
    const second = await send(network, incident, [reading]).expect(200);
    expect(second.body).toMatchObject({ accepted: 0, duplicate: 1, rows: [{ outcome: 'duplicate', id: first.body.rows[0].id, late: false, becameCurrent: true }] });
    expect(await stored(server, incident)).toHaveLength(1);
    expect(await roomAir(server, incident)).toMatchObject({ version: 2 });
  });

  test('other values of the sensor for the same moment are refused, both are named, and the good rows beside them are kept', async () => {
    const { network, incident } = await ready();
    await send(network, incident, [{ sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5, relativeHumidityPct: 64 }]).expect(200);
    const { body } = await send(network, incident, [
      { sensor: 'T-1', measuredAt: at('10:30'), airTempC: 22.5, relativeHumidityPct: 61 },
      { sensor: 'T-1', measuredAt: at('10:45'), airTempC: 21.6, relativeHumidityPct: 64 },
    ]).expect(200);
    expect(body).toMatchObject({ accepted: 1, conflicting: 1 });
    expect(body.rows[0]).toMatchObject({ outcome: 'conflicting', becameCurrent: false, remarks: [{ code: 'conflicting', text: 'This sensor has other values for the same moment. Kept are 21.5 °C and 64 %; sent were 22.5 °C and 61 %. The kept ones stay.' }] });
    expect((await stored(server, incident)).map((row) => row.air_temp_c)).toEqual([21.5, 21.6]);
  });

  test('two people may write down the same moment in two corners of a room; the damper air counts', async () => {
    const { network, incident } = await ready();
    const hand = { placeKind: 'drying-room', place: 'ROOM', measuredAt: at('10:30') };
    const { body } = await send(network, incident, [{ ...hand, airTempC: 21, relativeHumidityPct: 70 }, { ...hand, airTempC: 22, relativeHumidityPct: 66 }, { ...hand, airTempC: 21, relativeHumidityPct: 70 }]).expect(200);
    expect(body.rows.map((row: { outcome: string; becameCurrent: boolean }) => [row.outcome, row.becameCurrent])).toEqual([['accepted', true], ['accepted', false], ['duplicate', true]]);
    expect(await roomAir(server, incident)).toMatchObject({ air_temp_c: 21, relative_humidity_pct: 70 });
    expect((await stored(server, incident)).map(({ source, sensor_id: by }) => [source, by])).toEqual([['hand', null], ['hand', null]]);
  });

  test('freezers, zones and the open air have readings too, and a thermometer needs no humidity', async () => {
    const { network, incident } = await ready();
    await sensor(network, incident, 'F-1', { placeKind: 'freezer', placeId: incident.freezer('F1') });
    await sensor(network, incident, 'OUT', { placeKind: 'outdoors', placeId: incident.site() });
    const { body } = await send(network, incident, [
      { sensor: 'F-1', measuredAt: at('10:00'), airTempC: -17.5 },
      { sensor: 'OUT', measuredAt: at('12:00'), airTempC: 12, relativeHumidityPct: 88 },
      { placeKind: 'zone', place: 'quarantine', measuredAt: at('10:00'), airTempC: 17, relativeHumidityPct: 80 },
      { placeKind: 'freezer', place: incident.freezer('F1'), measuredAt: at('09:00'), airTempC: -18 },
    ]).expect(200);
    expect(body.rows.map((row: { outcome: string; late: boolean; becameCurrent: boolean }) => [row.outcome, row.late, row.becameCurrent])).toEqual([['accepted', false, true], ['accepted', false, true], ['accepted', false, true], ['accepted', true, false]]);
    const { rows } = await server.admin.query('select outdoor_air_temp_c, outdoor_relative_humidity_pct, version from incident where id = $1', [incident.id]);
    // It was registered at this moment with other air; what is observed no earlier replaces it.
    expect(rows).toEqual([{ outdoor_air_temp_c: 12, outdoor_relative_humidity_pct: 88, version: 2 }]);
    expect(await bells(server, incident.freezer('F1'))).toBe(1);
  });

  test('a burst for one place rings once', async () => {
    const { network, incident } = await ready();
    for (let minute = 10; minute < 16; minute += 1) await send(network, incident, [{ sensor: 'T-1', measuredAt: at(`10:${minute}`), airTempC: 21, relativeHumidityPct: 62 + minute / 100 }]).expect(200);
    expect(await bells(server, incident.room('ROOM'))).toBe(1);
    await server.admin.query(`update outbox set tries = 1 where subject_id = $1`, [incident.room('ROOM')]);
    await send(network, incident, [{ sensor: 'T-1', measuredAt: at('10:20'), airTempC: 21, relativeHumidityPct: 63 }]).expect(200);
    // The work on the first has begun and may have read already.
    expect(await bells(server, incident.room('ROOM'))).toBe(2);
  });

  test('a request that is sent again with its key is answered as before and keeps nothing twice', async () => {
    const { network, incident } = await ready();
    const key = { 'idempotency-key': '0198b7a0-7000-7000-8000-00000000aaaa' };
    const readings = [{ sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5, relativeHumidityPct: 64 }];
    const first = await send(network, incident, readings, key).expect(200);
    const again = await send(network, incident, readings, key).expect(200);
    expect(again.headers['idempotency-replayed']).toBe('true');
    expect(again.body).toEqual(first.body);
    expect(await stored(server, incident)).toHaveLength(1);
  });
});
