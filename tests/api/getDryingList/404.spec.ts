import { afterAll, beforeAll, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test("another network's site, and one that never was, have no drying list", async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  await ours.get(`/v1/sites/${incident.site()}/drying-list`).expect(200);
  await theirs.get(`/v1/sites/${incident.site()}/drying-list`).expect(404);
  await ours.get(`/v1/sites/${newId()}/drying-list`).expect(404);
});
