import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeShelf answers 200', () => {
  test('it was measured again, and its limit can be lifted', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body: shelf } = await network.post(`/v1/incidents/${incident.id}/shelves`, { siteId: incident.site(), code: 'A', name: 'Any', zone: 'dirty', volumeL: 100 }).expect(201);
    const path = `/v1/incidents/${incident.id}/shelves/${shelf.id}`;
    expect((await network.patch(path, { volumeL: 250 }, { 'if-match': '"1"' }).expect(200)).body).toEqual({ ...shelf, volumeL: 250, version: 2 });
    expect((await network.patch(path, { volumeL: null, name: 'Long one' }, { 'if-match': '"2"' }).expect(200)).body).toEqual({ ...shelf, volumeL: null, name: 'Long one', version: 3 });
    expect((await network.patch(path, { name: 'Late' }, { 'if-match': '"2"' }).expect(412)).body.code).toBe('version_stale');
  });
});
