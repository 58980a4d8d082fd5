import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const room = { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80 };
const pointers = async (body: object): Promise<string[]> => (await network.post('/v1/estimates/acceptance', { room, ...body }).expect(400)).body.errors.map(({ pointer }: { pointer: string }) => pointer).toSorted();

test('nothing that waits, half a thing, too many kinds, one name twice', async () => {
  expect(await pointers({ waiting: [] })).toEqual(['#/waiting']);
  expect(await pointers({ waiting: [{ kind: 'garment', count: 1.5 }] })).toEqual(['#/waiting/0/count']);
  expect(await pointers({ waiting: Array.from({ length: 13 }, () => ({ kind: 'garment' })) })).toEqual(['#/waiting']);
  expect(await pointers({ waiting: [{ name: 'a', kind: 'garment' }, { name: 'a', kind: 'throw' }] })).toEqual(['#/waiting/1/name']);
});

test('a rack question needs the rack that one thing takes', async () => {
  expect(await pointers({ freeRackM2: 10, waiting: [{ material: 'cotton', dryMassKg: 1, faceAreaM2: 1 }] })).toEqual(['#/waiting/0/rackM2PerItem']);
});
