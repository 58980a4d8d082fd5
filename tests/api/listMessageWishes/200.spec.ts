import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { family } from '../support/families.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('shows every word of the family about messages, and that the newest counts', async () => {
  const network = await server.network();
  const home = await family(network, await network.incident());
  const path = `/v1/households/${home.id}/message-wishes`;
  expect((await network.get(path).expect(200)).body).toEqual({ householdId: home.id, inForce: null, unreached: [], items: [] });
  await network.post(path, { wish: 'messages', manner: 'written' }).expect(201);
  await network.post(path, { wish: 'no-messages', manner: 'spoken' }).expect(201);
  const { body } = await network.get(path).expect(200);
  expect(body.inForce).toBe('no-messages');
  expect(body.items.map(({ wish, manner }: { wish: string; manner: string }) => [wish, manner])).toEqual([['no-messages', 'spoken'], ['messages', 'written']]);
});
