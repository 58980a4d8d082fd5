import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('the tag of a container of another incident is not offered', async () => {
  const network = await server.network();
  const [here, elsewhere] = [await network.incident(), await network.incident()];
  const [theirs] = await reserveTestTags(network, elsewhere, 1, 'container');
  const { body } = await network.post(`/v1/incidents/${here.id}/containers`, { siteId: here.site(), tag: theirs, kind: 'tub' }).expect(422);
  expect(body).toMatchObject({ code: 'tag_unknown', nearest: [] });
});
