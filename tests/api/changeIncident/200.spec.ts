import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeIncident answers 200', () => {
  test('members that are given replace, null removes, others stay, and the ETag moves', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}`;
    const changed = await network.patch(path, { name: 'Renamed', outdoorAirTempC: null, outdoorRelativeHumidityPct: null }, { 'if-match': '"1"' }).expect(200);
    expect(changed.headers['etag']).toBe('"2"');
    expect(changed.body).toMatchObject({ name: 'Renamed', place: 'Elmsford Reach (invented)', outdoorAirTempC: null, outdoorRelativeHumidityPct: null, version: 2 });
    expect((await network.get(path)).body).toEqual(changed.body);
  });

  test('an empty patch changes nothing and keeps the version', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const answer = await network.patch(`/v1/incidents/${incident.id}`, {}, { 'if-match': '"1"' }).expect(200);
    expect(answer.headers['etag']).toBe('"1"');
  });

  test('sent again with its key it changes once and answers the same', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const headers = { 'if-match': '"1"', 'idempotency-key': '"6d0e2b0a-2f3c-4b57-9a38-3a7a1a0d9c11"' };
    const first = await network.patch(`/v1/incidents/${incident.id}`, { name: 'Once' }, headers).expect(200);
    const again = await network.patch(`/v1/incidents/${incident.id}`, { name: 'Once' }, headers).expect(200);
    expect(again.headers['idempotency-replayed']).toBe('true');
    expect(again.body).toEqual(first.body);
    expect((await network.get(`/v1/incidents/${incident.id}`)).headers['etag']).toBe('"2"');
  });
});
