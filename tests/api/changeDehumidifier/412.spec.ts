import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeDehumidifier answers 412', () => {
  test('an older version is refused and told the present ETag', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/dehumidifiers/${incident.dehumidifier('D1')}`;
    await network.patch(path, { state: 'tripped' }, { 'if-match': '"1"' }).expect(200);
    const { body } = await network.patch(path, { state: 'running' }, { 'if-match': '"1"' }).expect(412);
    expect(body.currentEtag).toBe('"2"');
  });
});
