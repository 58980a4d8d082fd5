import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeDehumidifier answers 200', () => {
  test('somebody at a station may say that it tripped', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const lead = network.as(await network.newKey({ scopes: ['station:work'] }));
    const changed = await lead.patch(`/v1/incidents/${incident.id}/dehumidifiers/${incident.dehumidifier('D1')}`, { state: 'tripped' }, { 'if-match': '"1"' }).expect(200);
    expect(changed.body).toMatchObject({ code: 'D1', state: 'tripped', ratedLPerDay: 70, version: 2 });
  });
});
