import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeFreezer asks for a new plan', () => {
  test('when it holds less; a second change while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const change = (body: object, etag: string) => network.patch(`/v1/incidents/${incident.id}/freezers/${incident.freezer('F1')}`, body, { 'if-match': etag }).expect(200);
    await expectOneRequest(server, incident.id, 'freezer F1 changed', { first: () => change({ volumeL: 250 }, '"1"'), second: () => change({ availableFrom: '2026-05-09T09:00:00Z' }, '"2"') });
  });

  test('not when it stays as it was', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}/freezers/${incident.freezer('F1')}`, { volumeL: 300 }, { 'if-match': '"1"' }).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
