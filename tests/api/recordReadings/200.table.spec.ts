import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { sensor, stored } from '../support/climate.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

async function ready(timeZone = 'UTC') {
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  const network = await server.network();
  const incident = await network.incident();
  await server.admin.query('update network set time_zone = $2 where network_id = $1', [network.networkId, timeZone]);
  await sensor(network, incident);
  return { network, incident };
}

const send = (network: TestNetwork, incident: IncidentOnTest, table: string | Buffer) => network.post(`/v1/incidents/${incident.id}/readings`, table, { 'content-type': 'text/csv' });
interface Row {
  row: number;
  outcome: string;
  remarks: { code: string; member: string }[];
}
const outcomes = (body: { rows: Row[] }) => body.rows.map(({ row, outcome, remarks }) => [row, outcome, ...remarks.map(({ code, member }) => `${member} ${code}`)]);

describe('recordReadings takes a table', () => {
  test('as loggers write it: other headers, semicolons, a line that names the delimiter, decimal commas, local times, blank lines, CRLF and a byte-order mark', async () => {
    const { network, incident } = await ready('Europe/Berlin');
    const { body } = await send(network, incident, '\uFEFFsep=;\r\nLogger;Timestamp;Temperature;RH;Battery\r\nT-1;09.05.2026 10:30;21,5;63;87\r\n\r\nT-1;2026-05-09 10:45;21,6;64;87\r\n').expect(200);
    expect(outcomes(body)).toEqual([[2, 'accepted'], [4, 'accepted']]);
    expect((await stored(server, incident)).map((row) => [row.measured_at.toISOString(), row.air_temp_c, row.relative_humidity_pct])).toEqual([['2026-05-09T08:30:00.000Z', 21.5, 63], ['2026-05-09T08:45:00.000Z', 21.6, 64]]);
  });

  test('row by row: what is wrong with one does not hold up the others, and rows are numbered as a spreadsheet shows them', async () => {
    const { network, incident } = await ready();
    const table = [
      'sensor,placeKind,place,measuredAt,airTempC,relativeHumidityPct',
      'T-1,,,2026-05-09T10:00:00Z,21.5,63',
      'T-1,,,2026-05-09T10:05:00Z,21.5 °C,63',
      'T-1,,,2026-05-09T10:10:00Z,NaN,63',
      'T-1,,,05/09/2026 10:15,21.5,63',
      'T-1,,,2026-05-09,21.5,63',
      'T-1,,,2026-05-09T10:20:00Z,=1+1,63',
      'T-1,,,2026-05-09T10:25:00Z,21,5,63',
      ',freezer,F1,2026-05-09T10:30:00Z,-17.5,',
      'T-1,,,46151,21.5,63',
      'T-1,,,2026-05-09T10:00:00Z,21.5,63',
    ].join('\n');
    const { body } = await send(network, incident, table).expect(200);
    expect(outcomes(body)).toEqual([
      [2, 'accepted'], [3, 'refused', 'airTempC unit_in_cell'], [4, 'refused', 'airTempC not_a_number'], [5, 'refused', 'measuredAt date_ambiguous'], [6, 'refused', 'measuredAt time_of_day_missing'],
      [7, 'refused', 'airTempC not_a_number'], [8, 'refused', ' cells_too_many'], [9, 'accepted'], [10, 'refused', 'measuredAt date_serial_number'], [11, 'duplicate'],
    ]);
    expect(body).toMatchObject({ accepted: 2, duplicate: 1, refused: 7 });
  });

  test('a local time in the hour that the clocks repeat is refused, not guessed, and so is one that they skipped', async () => {
    const { network, incident } = await ready('Europe/Berlin');
    server.clock.set(Date.parse('2026-10-26T12:00:00Z'));
    const table = 'sensor,measuredAt,airTempC\nT-1,2026-10-25 02:30,12\nT-1,2026-10-25T02:30:00+01:00,12\nT-1,2026-03-29 02:30,12\nT-1,2026-10-25 03:30,12\n';
    const { body } = await send(network, incident, table).expect(200);
    expect(outcomes(body)).toEqual([[2, 'refused', 'measuredAt time_twice'], [3, 'accepted'], [4, 'refused', 'measuredAt date_impossible'], [5, 'accepted']]);
  });

  test('of which no row can be kept is answered 422 with every reason by row', async () => {
    const { network, incident } = await ready();
    const { body } = await send(network, incident, 'sensor,measuredAt,airTempC\nT-9,2026-05-09T10:00:00Z,21\nT-1,2026-05-09T10:00:00Z,300.1\n').expect(422);
    expect(body.errors.map(({ detail }: { detail: string }) => detail.slice(0, 24))).toEqual(['Row 2: No sensor of this', 'Row 3: 300.1 °C cannot b']);
  });

  test('of thousands of readings in one request', async () => {
    const { network, incident } = await ready();
    const lines = Array.from({ length: 1_500 }, (_, at) => `T-1,${new Date(Date.parse('2026-05-09T11:00:00Z') - at * 60_000).toISOString()},${20 + (at % 7) / 10},${60 + (at % 5)}`);
    const { body } = await send(network, incident, `sensor,measuredAt,airTempC,relativeHumidityPct\n${lines.join('\n')}\n`).expect(200);
    expect(body).toMatchObject({ accepted: 1_500, refused: 0, doubtful: 0 });
  });
});
