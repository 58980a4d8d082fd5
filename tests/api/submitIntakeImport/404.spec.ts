import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 404', () => {
  test('another network\'s incident, like one that never was, and an incident outside the key\'s limit', async () => {
    const ours = await server.network();
    const theirs = await server.network();
    const own = await ours.incident();
    const foreign = await theirs.incident();
    const other = await submit(ours, foreign, 'tag,household\nA,HH-1\n').expect(404);
    const none = await ours.post(`/v1/incidents/${newId()}/intake-imports?siteId=${own.site()}`, 'tag,household\nA,HH-1\n', { 'content-type': 'text/csv' }).expect(404);
    expect([other.body.code, other.body.detail]).toEqual([none.body.code, none.body.detail]);
    const second = await ours.incident();
    await submit(ours.as(await ours.newKey({ incidentId: second.id })), own, 'tag,household\nA,HH-1\n').expect(404);
  });
});
