import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, takeInTestHousehold, takeInTestItem, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('recordConsent asks for a new plan', () => {
  test('when a thing goes another way after the word; a second word while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const household = await takeInTestHousehold(network, incident, []);
    await reserveTestTags(network, incident, 1);
    await takeInTestItem(network, incident, household);
    const word = (given: boolean) => network.post(`/v1/households/${household.id}/consents`, { scope: 'treat', given, manner: 'spoken' }).expect(201);
    await expectOneRequest(server, incident.id, 'an owner has decided about treating', { first: () => word(true), second: () => word(false) });
  });

  test('not when the word changes nothing', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const household = await takeInTestHousehold(network, incident);
    await network.post(`/v1/households/${household.id}/consents`, { scope: 'freeze', given: true, manner: 'spoken' }).expect(201);
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
