import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { reserve, take } from '../submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('getIntakeImport answers 200', () => {
  test('the numbers of the four outcomes add up to the rows that are done', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = '', b = '', c = ''] = await reserve(network, incident, 3);
    const importId = await take(server, network, incident, `tag,household,object\n${a},HH-1,Quilt\n${b.toLowerCase()},HH-1,Shirt\n${a},HH-1,quilt\n${c},,Letter\n`);
    const { body } = await network.get(`/v1/intake-imports/${importId}`).expect(200);
    expect(body).toMatchObject({ state: 'done', rowsTotal: 4, rowsDone: 4, accepted: 1, repaired: 1, alreadyThere: 1, refused: 1, failure: null, finishedAt: '2026-05-09T07:00:00.000Z' });
  });
});
