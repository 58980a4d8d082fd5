import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 415', () => {
  test.each(['application/json', 'application/vnd.ms-excel', 'text/plain', 'application/merge-patch+json'])('%s', async (type) => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await submit(network, incident, '{}', { 'content-type': type }).expect(415);
    expect(body.code).toBe('media_type_unsupported');
  });
});
