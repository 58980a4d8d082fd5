import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

test('words that are not in the vocabulary, and members that there are not, are named by their place', async () => {
  const { body } = await network.post('/v1/estimates/triage', { assessment: { materialClass: 'felt', hazards: ['lava'], colour: 'red', count: 0 }, airTempC: 200 }).expect(400);
  expect(body.errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual(['#/airTempC', '#/assessment/colour', '#/assessment/count', '#/assessment/hazards/0', '#/assessment/materialClass', '#/floodAt']);
});
