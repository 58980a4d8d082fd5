import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeVehicle answers 200', () => {
  test('another van comes under the same code', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body: van } = await network.post(`/v1/incidents/${incident.id}/vehicles`, { code: 'VAN1', name: 'White van', volumeL: 6000 }).expect(201);
    const changed = await network.patch(`/v1/incidents/${incident.id}/vehicles/${van.id}`, { name: 'Blue van', volumeL: 4000, maxLoadKg: 700 }, { 'if-match': '"1"' }).expect(200);
    expect(changed.body).toEqual({ ...van, name: 'Blue van', volumeL: 4000, maxLoadKg: 700, version: 2 });
  });
});
