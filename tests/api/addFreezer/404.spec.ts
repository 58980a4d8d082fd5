import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addFreezer answers 404', () => {
  test("another network's incident takes no freezer of ours", async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const incident = await ours.incident();
    const body = { siteId: incident.site(), code: 'F2', name: 'Trailer', volumeL: 6000, availableFrom: '2026-05-09T16:00:00Z' };
    await theirs.post(`/v1/incidents/${incident.id}/freezers`, body).expect(404);
    expect((await ours.get(`/v1/incidents/${incident.id}/layout`)).body.sites[0].freezers).toHaveLength(1);
  });
});
