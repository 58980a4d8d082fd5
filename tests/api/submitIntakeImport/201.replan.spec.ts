import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { expectOneRequest, waitingRuns } from '../support/plan-requests.js';
import { reserve, take } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('a file that was worked through asks for a new plan', () => {
  test('when it brought things; a second file while the run waits asks for no second', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [first = '', second = ''] = await reserve(network, incident, 2);
    await expectOneRequest(server, incident.id, 'an intake file was worked through', {
      first: () => take(server, network, incident, `tag,household,object\n${first},HH-1,Quilt\n`),
      second: () => take(server, network, incident, `tag,household,object\n${second},HH-1,Shirt\n`),
    });
  });

  test('not when every row was refused', async () => {
    const network = await server.network();
    const incident = await network.incident();
    await take(server, network, incident, 'tag,household,object\nA,HH-1,Quilt\n');
    expect(await waitingRuns(server, incident.id)).toEqual([]);
  });
});
