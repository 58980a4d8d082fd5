import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test("another network's station and one that never was answer the same 404; a key without station:work 403", async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  const path = `/v1/stations/${incident.station('RINSE')}/work-list`;
  const [strange, none] = [await theirs.get(path).expect(404), await ours.get(`/v1/stations/${newId()}/work-list`).expect(404)];
  expect(strange.body.detail).toBe(none.body.detail);
  const reader = ours.as(await ours.newKey({ scopes: ['item:read'] }));
  expect((await reader.get(path).expect(403)).body.code).toBe('scope_missing');
});
