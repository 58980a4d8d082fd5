import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { ask, shortOfFreezer } from '../support/what-ifs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('a what-if of another network answers as one that never was', async () => {
  const { network, incident } = await shortOfFreezer(server);
  const id = await ask(network, incident, {});
  await network.get(`/v1/plan-what-ifs/${id}`).expect(200);
  const theirs = await server.network();
  const details = await Promise.all([id, newId()].map(async (one) => (await theirs.get(`/v1/plan-what-ifs/${one}`).expect(404)).body.detail as string));
  expect(new Set(details).size).toBe(1);
});

test('a key of another incident does not see it', async () => {
  const { network, incident } = await shortOfFreezer(server);
  const id = await ask(network, incident, {});
  const elsewhere = network.as(await network.newKey({ incidentId: (await network.incident()).id }));
  await elsewhere.get(`/v1/plan-what-ifs/${id}`).expect(404);
});
