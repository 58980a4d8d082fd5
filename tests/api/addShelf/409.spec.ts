import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addShelf answers 409', () => {
  test('a code that the site has already is refused with its pointer, also when both are sent at once', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const add = () => network.post(`/v1/incidents/${incident.id}/shelves`, { siteId: incident.site(), code: 'A', name: 'Any', zone: 'dirty' });
    const answers = await Promise.all([add(), add()]);
    expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409]);
    expect(answers.find((answer) => answer.status === 409)?.body).toMatchObject({ code: 'already_exists', errors: [{ pointer: '#/code' }] });
  });
});
