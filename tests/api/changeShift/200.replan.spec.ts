import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeShift asks for a new plan', () => {
  test('when somebody goes home; a second who goes while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
    const goesHome = (person: number) => network.patch(`/v1/incidents/${incident.id}/shifts/${body.people[person].shifts[0].id}`, { endsAt: '2026-05-09T12:00:00Z' }, { 'if-match': '"1"' }).expect(200);
    await expectOneRequest(server, incident.id, 'a shift changed', { first: () => goesHome(0), second: () => goesHome(1) });
  });

  test('not when the shift ends as before', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
    const [shift] = body.people[0].shifts;
    await network.patch(`/v1/incidents/${incident.id}/shifts/${shift.id}`, { endsAt: shift.endsAt }, { 'if-match': '"1"' }).expect(200);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
