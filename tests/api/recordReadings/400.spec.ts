import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { at, send, sensor, stored } from '../support/climate.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
  network = await server.network();
  incident = await network.incident();
  await sensor(network, incident);
});
afterAll(() => server.close());

const path = () => `/v1/incidents/${incident.id}/readings`;
const GOOD = { sensor: 'T-1', measuredAt: at('10:30'), airTempC: 21.5 };

describe('recordReadings answers 400 to what is no batch of readings, and keeps nothing of it', () => {
  test.each([
    ['no readings', { readings: [] }, '#/readings'],
    ['more than 500', { readings: Array.from({ length: 501 }, () => GOOD) }, '#/readings'],
    ['a reading that is no object', { readings: [GOOD, 21.5] }, '#/readings/1'],
    ['a member beside them', { readings: [GOOD], site: 'HALL' }, '#/site'],
  ])('%s', async (_what, body, pointer) => {
    const answer = await network.post(path(), body).expect(400);
    expect(answer.body).toMatchObject({ code: 'validation_failed', errors: [{ pointer }] });
  });

  test.each([
    ['nothing', '', 'validation_failed'],
    ['blank lines', '\n\n\n', 'validation_failed'],
    ['no header of ours', 'a,b\n1,2\n', 'validation_failed'],
    ['no column for the time', 'sensor,airTempC\nT-1,21\n', 'validation_failed'],
    ['a column twice', 'sensor,measuredAt,airTempC,airTempC\nT-1,2026-05-09T10:30:00Z,21,22\n', 'validation_failed'],
    ['a header and no row', 'sensor,measuredAt,airTempC\n', 'validation_failed'],
    ['more than 3,000 rows', `sensor,measuredAt,airTempC\n${'T-1,2026-05-09T10:30:00Z,21\n'.repeat(3_001)}`, 'validation_failed'],
    ['a quote that is never closed', 'sensor,measuredAt,airTempC\n"T-1,2026-05-09T10:30:00Z,21\n', 'validation_failed'],
  ])('a table with %s', async (_what, table, code) => {
    expect((await network.post(path(), table, { 'content-type': 'text/csv' }).expect(400)).body.code).toBe(code);
  });

  test('another media type is answered 415', async () => {
    for (const type of ['application/x-ndjson', 'text/plain']) expect((await network.post(path(), 'x', { 'content-type': type }).expect(415)).body.code).toBe('media_type_unsupported');
  });

  test('a key without the scope is answered 403', async () => {
    const narrow = network.as(await network.newKey({ scopes: ['climate:read', 'station:work'] }));
    await send(narrow, incident, [GOOD]).expect(403);
  });

  test('nothing was kept', async () => {
    expect(await stored(server, incident)).toEqual([]);
  });
});
