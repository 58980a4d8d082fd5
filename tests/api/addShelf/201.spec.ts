import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addShelf answers 201', () => {
  test('a shelf joins the layout of its site, and keeps things as a waiting area does', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const body = { siteId: incident.site(), code: 'A-3', name: 'Bay A, third shelf', zone: 'clean', volumeL: 40 };
    const added = await network.post(`/v1/incidents/${incident.id}/shelves`, body).expect(201);
    expect(added.body).toMatchObject({ ...body, version: 1 });
    const layout = await network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
    expect(layout.body.sites[0].shelves).toEqual([added.body]);
  });

  test('without a measured volume no limit is kept', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.post(`/v1/incidents/${incident.id}/shelves`, { siteId: incident.site(), code: 'A', name: 'Any', zone: 'dirty' }).expect(201);
    expect(body.volumeL).toBeNull();
  });
});
