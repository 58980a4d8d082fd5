import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addVehicle answers 201', () => {
  test('a van joins the layout; its code is taken once', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const body = { code: 'VAN1', name: 'White van of the school', volumeL: 6000, maxLoadKg: 900 };
    const added = await network.post(`/v1/incidents/${incident.id}/vehicles`, body).expect(201);
    expect(added.body).toMatchObject({ ...body, version: 1 });
    expect((await network.get(`/v1/incidents/${incident.id}/layout`)).body.vehicles).toEqual([added.body]);
    const again = await network.post(`/v1/incidents/${incident.id}/vehicles`, body).expect(409);
    expect(again.body).toMatchObject({ code: 'already_exists', errors: [{ pointer: '#/code' }] });
  });
});
