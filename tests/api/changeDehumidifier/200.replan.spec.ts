import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeDehumidifier asks for a new plan', () => {
  test('when it trips; a second change while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const change = (state: string, etag: string) => network.patch(`/v1/incidents/${incident.id}/dehumidifiers/${incident.dehumidifier('D1')}`, { state }, { 'if-match': etag }).expect(200);
    await expectOneRequest(server, incident.id, 'dehumidifier D1 has tripped', { first: () => change('tripped', '"1"'), second: () => change('running', '"2"') });
  });

  test('not when it runs on', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}/dehumidifiers/${incident.dehumidifier('D1')}`, { state: 'running' }, { 'if-match': '"1"' }).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
