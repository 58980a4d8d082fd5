import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeIncident asks for a new plan', () => {
  test('when the weather turns; a second change while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const change = (outdoorAirTempC: number, etag: string) => network.patch(`/v1/incidents/${incident.id}`, { outdoorAirTempC }, { 'if-match': etag }).expect(200);
    await expectOneRequest(server, incident.id, 'the weather changed', { first: () => change(18, '"1"'), second: () => change(15, '"2"') });
  });

  test('not when it gets another name, nor when it is closed', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}`, { name: 'Renamed' }, { 'if-match': '"1"' }).expect(200);
    await network.patch(`/v1/incidents/${incident.id}`, { state: 'closed', outdoorAirTempC: 12 }, { 'if-match': '"2"' }).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
