import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 422', () => {
  test('a site of another network or another incident, like one that never was', async () => {
    const ours = await server.network();
    const theirs = await server.network();
    const incident = await ours.incident();
    const sites = [(await theirs.incident()).site(), (await ours.incident()).site(), newId()];
    for (const site of sites) {
      const { body } = await submit(ours, incident, 'tag,household\nA,HH-1\n', undefined, site).expect(422);
      expect(body).toMatchObject({ code: 'reference_unknown', errors: [{ parameter: 'siteId' }] });
    }
    const { rows } = await server.admin.query('select 1 from intake_import where network_id = $1', [ours.networkId]);
    expect(rows).toHaveLength(0);
  });
});
