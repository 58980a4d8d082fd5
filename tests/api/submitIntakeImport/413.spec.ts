import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 413', () => {
  test('more than ten mebibytes', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await submit(network, incident, Buffer.alloc(10 * 1_048_576 + 1, 'A')).expect(413);
    expect(body.code).toBe('body_too_large');
  });
});
