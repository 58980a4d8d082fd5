import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('a process whose database answers is ready', async () => {
  expect((await (await server.network()).as(null).get('/health/ready').expect(200)).body).toEqual({ status: 'ok' });
});
