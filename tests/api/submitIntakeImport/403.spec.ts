import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 403', () => {
  test('a key without intake:write; no key at all answers 401', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await submit(network.as(null), incident, 'tag,household\nA,HH-1\n').expect(401);
    const { body } = await submit(network.as(await network.newKey({ scopes: ['item:read', 'household:write'] })), incident, 'tag,household\nA,HH-1\n').expect(403);
    expect(body).toMatchObject({ code: 'scope_missing', scope: 'intake:write' });
  });
});
