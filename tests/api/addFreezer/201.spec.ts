import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addFreezer answers 201', () => {
  test('the trailer of a partner joins the layout', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const body = { siteId: incident.site(), code: 'F2', name: 'Trailer of a partner', volumeL: 6000, availableFrom: '2026-05-09T18:00:00+02:00' };
    const added = await network.post(`/v1/incidents/${incident.id}/freezers`, body).expect(201);
    expect(added.body).toMatchObject({ code: 'F2', volumeL: 6000, setPointC: -18, availableFrom: '2026-05-09T16:00:00.000Z', version: 1 });
    const layout = await network.get(`/v1/incidents/${incident.id}/layout`);
    expect(layout.body.sites[0].freezers.map((freezer: { code: string }) => freezer.code)).toEqual(['F1', 'F2']);
  });
});
