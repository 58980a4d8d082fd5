import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test("a room that is another network's, that is none, or no id at all answers 404 with a problem", async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  for (const id of [incident.room('ROOM'), incident.id, 'x']) {
    const { body } = await theirs.get(`/v1/drying-rooms/${id}/fits`).expect(404).expect('content-type', /application\/problem\+json/);
    expect(body).toMatchObject({ code: 'not_found' });
  }
});
