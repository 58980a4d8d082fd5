import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { take } from '../submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('getRefusedRows answers 403', () => {
  test('a key that may not see contacts does not get the file that holds them', async () => {
    const network = await server.network();
    const importId = await take(server, network, await network.incident(), 'tag,household,contactName\n,HH-1,Marigold Example\n');
    const doorway = network.as(await network.newKey({ scopes: ['intake:write', 'item:read'] }));
    const { body, text } = await doorway.get(`/v1/intake-imports/${importId}/refused-rows`).expect(403);
    expect(body).toMatchObject({ code: 'scope_missing', scope: 'household:read' });
    expect(text).not.toMatch(/Marigold/);
    await doorway.get(`/v1/intake-imports/${importId}/rows`).expect(200);
  });
});
