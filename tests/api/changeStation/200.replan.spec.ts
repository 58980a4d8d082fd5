import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeStation asks for a new plan', () => {
  test('when a station closes; a second change while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const change = (code: string, body: object) => network.patch(`/v1/incidents/${incident.id}/stations/${incident.station(code)}`, body, { 'if-match': '"1"' }).expect(200);
    await expectOneRequest(server, incident.id, 'station BLOT changed', { first: () => change('BLOT', { state: 'closed' }), second: () => change('RINSE', { capacity: 1 }) });
  });

  test('not when it gets another name or what it had', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/stations/${incident.station('BLOT')}`;
    await network.patch(path, { name: 'Blotting by the window' }, { 'if-match': '"1"' }).expect(200);
    await network.patch(path, { state: 'open', capacity: 2 }, { 'if-match': '"2"' }).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });

  test('not when the change is refused', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.patch(`/v1/incidents/${incident.id}/stations/${incident.station('BLOT')}`, { state: 'closed' }, { 'if-match': '"9"' }).expect(412);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
