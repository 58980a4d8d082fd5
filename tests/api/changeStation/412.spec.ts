import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changeStation answers 412', () => {
  test('of many changes of one version at the same moment exactly one is taken', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/stations/${incident.station('RINSE')}`;
    const answers = await Promise.all([3, 4, 5, 6].map((capacity) => network.patch(path, { capacity }, { 'if-match': '"1"' })));
    expect(answers.map((answer) => answer.status).sort()).toEqual([200, 412, 412, 412]);
    for (const answer of answers.filter((one) => one.status === 412)) expect(answer.body.currentEtag).toBe('"2"');
  });
});
