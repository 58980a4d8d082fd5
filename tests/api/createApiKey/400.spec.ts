import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('createApiKey answers 400', () => {
  test.each([
    ['an end beyond 400 days', { expiresAt: inDays(401) }, '#/expiresAt'],
    ['an end in the past', { expiresAt: inDays(-1) }, '#/expiresAt'],
    ['no end at all', { expiresAt: undefined }, '#/expiresAt'],
    ['no scope', { scopes: [] }, '#/scopes'],
    ['a scope that does not exist', { scopes: ['everything'] }, '#/scopes/0'],
  ])('%s is refused with its pointer', async (_what, change, pointer) => {
    const network = await server.network();
    const { body } = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30), ...change }).expect(400);
    expect(body.errors).toMatchObject([{ pointer }]);
  });

  test('a key lives in real time: the clock of the use cases does not stretch it', async () => {
    const network = await server.network();
    server.clock.set(Date.now() + 300 * 86_400_000);
    await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(500) }).expect(400);
  });
});
