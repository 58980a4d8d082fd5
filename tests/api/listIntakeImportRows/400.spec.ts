import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { take } from '../submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('listIntakeImportRows answers 400', () => {
  test('to a cursor of another import or another outcome, and to an outcome that is none', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const one = await take(server, network, incident, 'tag,household\nA,HH-1\nB,HH-1\n');
    const two = await take(server, network, incident, 'tag,household\nC,HH-1\nD,HH-1\n');
    const { body } = await network.get(`/v1/intake-imports/${one}/rows?limit=1`).expect(200);
    for (const path of [`${two}/rows?limit=1&cursor=${body.nextCursor}`, `${one}/rows?limit=1&outcome=refused&cursor=${body.nextCursor}`, `${one}/rows?cursor=1`]) {
      const refused = await network.get(`/v1/intake-imports/${path}`).expect(400);
      expect(refused.body.code).toBe('cursor_invalid');
    }
    const { body: problem } = await network.get(`/v1/intake-imports/${one}/rows?outcome=lost`).expect(400);
    expect(problem).toMatchObject({ code: 'validation_failed', errors: [{ parameter: 'outcome' }] });
  });
});
