import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addFreezer asks for a new plan', () => {
  test('when a trailer comes; a second one while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const add = (code: string) => network.post(`/v1/incidents/${incident.id}/freezers`, { siteId: incident.site(), code, name: 'Trailer', volumeL: 6000, availableFrom: '2026-05-09T16:00:00Z' }).expect(201);
    await expectOneRequest(server, incident.id, 'freezer F2 added', { first: () => add('F2'), second: () => add('F3') });
  });

  test('not when its code is taken', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.post(`/v1/incidents/${incident.id}/freezers`, { siteId: incident.site(), code: 'F1', name: 'Trailer', volumeL: 6000, availableFrom: '2026-05-09T16:00:00Z' }).expect(409);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
