import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { at, send, sensor } from '../support/climate.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeSensor', () => {
  test('what a withdrawn sensor measured before still comes in, what it measures afterwards is refused, and put back it may send again', async () => {
    server.clock.set(Date.parse('2026-05-09T10:00:00Z'));
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/sensors/${await sensor(network, incident)}`;
    const { body } = await network.patch(path, { state: 'withdrawn' }, { 'if-match': '"1"' }).expect(200);
    expect(body).toMatchObject({ state: 'withdrawn', withdrawnAt: at('10:00'), version: 2 });
    server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
    const reading = (clock: string) => ({ sensor: 'T-1', measuredAt: at(clock), airTempC: 21, relativeHumidityPct: 62 });
    const mixed = await send(network, incident, [reading('09:59'), reading('10:00')]).expect(200);
    expect(mixed.body.rows).toMatchObject([{ outcome: 'accepted' }, { outcome: 'refused', remarks: [{ code: 'sensor_withdrawn' }] }]);
    await network.patch(path, { state: 'in-service', name: 'By the door' }, { 'if-match': '"2"' }).expect(200);
    await send(network, incident, [reading('10:00')]).expect(200);
  });

  test('how often it is expected to report can be said, changed and taken back; the place is reckoned anew by it, a new name alone reckons nothing', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/sensors/${await sensor(network, incident)}`;
    const rung = async () => Number((await server.admin.query("select count(*) from outbox where network_id = $1 and kind = 'climate.readings' and subject_id = $2", [network.networkId, incident.room('ROOM')])).rows[0].count);
    await network.patch(path, { name: 'By the door' }, { 'if-match': '"1"' }).expect(200);
    expect(await rung()).toBe(0);
    expect((await network.patch(path, { expectedEveryMinutes: 10 }, { 'if-match': '"2"' }).expect(200)).body).toMatchObject({ expectedEveryMinutes: 10, name: 'By the door', version: 3 });
    expect(await rung()).toBe(1);
    expect((await network.patch(path, { name: 'Kept' }, { 'if-match': '"3"' }).expect(200)).body.expectedEveryMinutes).toBe(10);
    expect((await network.patch(path, { expectedEveryMinutes: null }, { 'if-match': '"4"' }).expect(200)).body.expectedEveryMinutes).toBeNull();
    await network.patch(path, { expectedEveryMinutes: 0 }, { 'if-match': '"5"' }).expect(400);
  });

  test('an empty patch changes nothing and keeps the version', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.patch(`/v1/incidents/${incident.id}/sensors/${await sensor(network, incident)}`, {}, { 'if-match': '"1"' }).expect(200);
    expect(body.version).toBe(1);
  });

  test("another network's sensor answers 404", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [incident, own] = [await ours.incident(), await theirs.incident()];
    const id = await sensor(ours, incident);
    for (const incidentId of [incident.id, own.id]) await theirs.patch(`/v1/incidents/${incidentId}/sensors/${id}`, { name: 'Mine' }, { 'if-match': '"1"' }).expect(404);
  });
});
