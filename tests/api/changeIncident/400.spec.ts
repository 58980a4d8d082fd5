import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeIncident answers 400', () => {
  test.each([
    ['half of the outdoor air', { outdoorRelativeHumidityPct: null }, '#/outdoorRelativeHumidityPct'],
    ['a name that is removed', { name: null }, '#/name'],
    ['a member that cannot be changed', { floodAt: '2026-05-08T19:00:00Z' }, '#/floodAt'],
  ])('%s is refused with its pointer, and nothing changes', async (_what, patch, pointer) => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.patch(`/v1/incidents/${incident.id}`, patch, { 'if-match': '"1"' }).expect(400);
    expect(body.errors.map((error: { pointer: string }) => error.pointer)).toEqual([pointer]);
    expect((await network.get(`/v1/incidents/${incident.id}`)).headers['etag']).toBe('"1"');
  });
});
