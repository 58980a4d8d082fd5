import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('a stranger may ask whether the process lives, and learns nothing else', async () => {
  const network = await server.network();
  const answer = await network.as(null).get('/health/live').expect(200);
  expect(answer.body).toEqual({ status: 'ok' });
  expect(answer.headers['cache-control']).toBe('no-store');
  expect(answer.headers['x-request-id']).toMatch(/^[0-9a-f-]{36}$/);
});

test('the document answers without a key and names every route', async () => {
  const network = await server.network();
  const answer = await network.as(null).get('/openapi.json').expect(200);
  expect(answer.body.openapi).toBe('3.1.0');
  expect(Object.keys(answer.body.paths)).toEqual(expect.arrayContaining(['/v1/incidents/{incidentId}/items', '/v1/items/{itemId}']));
});
