import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

test.each<[string, object, string[]]>([
  ['neither load nor bundle', {}, ['#/loadKg']],
  ['both', { loadKg: 3, bundle: { dryMassKg: 1, stage: 'drained' } }, ['#/bundle']],
  ['numbers and names that cannot be', { loadKg: -1, lift: { asymmetryDeg: 200, coupling: 'glued' }, circumstances: ['heavy'], floorFriction: 9 }, ['#/circumstances/0', '#/floorFriction', '#/lift/asymmetryDeg', '#/lift/coupling', '#/loadKg']],
  ['a thickness that does not go with the mass of a square metre', { bundle: { dryMassKg: 1, stage: 'dripping', thicknessM: 0.5, arealMassKgPerM2: 0.001 } }, ['#/bundle/thicknessM']],
])('%s is refused at its place', async (_name, body, pointers) => {
  const answer = await network.post('/v1/estimates/lift', body).expect(400);
  expect(answer.body.errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual(pointers);
});
