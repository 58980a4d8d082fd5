import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { benchIncident, refer } from '../support/referrals.js';
import { waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('referItem asks for a new plan', () => {
  test('when the thing takes a place on the bench that the plan has for another', async () => {
    const world = await benchIncident(server, 2);
    const { items } = (await world.network.get(`/v1/incidents/${world.incident.id}/plan/unplanned`).expect(200)).body;
    await refer(world, items[0].itemId).expect(201);
    expect(await waitingRuns(server, world.incident.id)).toMatchObject([{ reason: 'a thing went to a specialist otherwise than planned', bells: 1, delayed: true }]);
  });

  test('not when it goes where the plan sends it', async () => {
    const world = await benchIncident(server, 1);
    await refer(world, world.tapes[0]!).expect(201);
    expect(await waitingRuns(server, world.incident.id)).toEqual([]);
  });

  test('not when nobody said what the specialist can take', async () => {
    const world = await benchIncident(server, 1, { bench: {} });
    await refer(world, world.tapes[0]!).expect(201);
    expect(await waitingRuns(server, world.incident.id)).toEqual([]);
  });
});
