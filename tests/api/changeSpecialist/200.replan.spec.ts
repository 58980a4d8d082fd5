import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

async function studio() {
  const network = await server.network();
  const incident = await network.incident();
  const path = `/v1/incidents/${incident.id}/specialists/${incident.specialist('SP1')}`;
  return { incident, change: (body: object, etag: string) => network.patch(path, body, { 'if-match': etag }).expect(200) };
}

describe('changeSpecialist asks for a new plan', () => {
  test('when it is said what they can take; a second change while the run waits asks for no second', async () => {
    const { incident, change } = await studio();
    await expectOneRequest(server, incident.id, 'specialist SP1 changed', { first: () => change({ piecesAtOnce: 2, hoursPerPiece: 6 }, '"1"'), second: () => change({ materialClasses: ['parchment'] }, '"2"') });
  });

  test('not for another name, and not when it stays as it was', async () => {
    const { incident, change } = await studio();
    await change({ name: 'Studio by the bridge', piecesAtOnce: null, materialClasses: [] }, '"1"');
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
