import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const SHIFTS = [{ startsAt: '2026-05-09T10:00:00Z', endsAt: '2026-05-09T18:00:00Z' }];

describe('addPerson asks for a new plan', () => {
  test('when somebody joins with a shift; a second one while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const add = (code: string) => network.post(`/v1/incidents/${incident.id}/people`, { siteId: incident.site(), code, displayName: `Tester ${code}`, skills: ['colour-testing'], shifts: SHIFTS }).expect(201);
    await expectOneRequest(server, incident.id, 'person P8 added', { first: () => add('P8'), second: () => add('P9') });
  });

  test('not when no shift is known, because nobody can plan with that person yet', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await network.post(`/v1/incidents/${incident.id}/people`, { siteId: incident.site(), code: 'P9', displayName: 'Tester nine', skills: ['colour-testing'], shifts: [] }).expect(201);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
