import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addFreezer answers 422', () => {
  test('a site of another incident, or of another network, is unknown here', async () => {
    const [ours, theirs] = [await server.network(), await server.network()];
    const [incident, other, foreign] = [await ours.incident(), await ours.incident(), await theirs.incident()];
    for (const siteId of [other.site(), foreign.site()]) {
      const { body } = await ours.post(`/v1/incidents/${incident.id}/freezers`, { siteId, code: 'F2', name: 'Trailer', volumeL: 6000, availableFrom: '2026-05-09T16:00:00Z' }).expect(422);
      expect(body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/siteId' }] });
    }
  });
});
