import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const pointers = async (body: object): Promise<string[]> => (await network.post('/v1/estimates/drying', body).expect(400)).body.errors.map(({ pointer }: { pointer: string }) => pointer).toSorted();

test('numbers outside of what the model holds for are named by their place', async () => {
  const air = { airTempC: 293, relativeHumidityPct: 101, airSpeedMPerS: 9 };
  expect(await pointers({ air, goods: { kind: 'garment', moistureX: 80, dryMassKg: 0, material: 'asbestos' } })).toEqual(['#/air/airSpeedMPerS', '#/air/airTempC', '#/air/relativeHumidityPct', '#/goods/dryMassKg', '#/goods/material', '#/goods/moistureX']);
});

test('without a kind, material and sizes are asked for; a band must hold together', async () => {
  expect(await pointers({ air: { airTempC: 20, relativeHumidityPct: 50 }, goods: { moistureX: 1 } })).toEqual(['#/goods/dryMassKg', '#/goods/faceAreaM2', '#/goods/material']);
  expect(await pointers({ air: { airTempC: 20, relativeHumidityPct: 50 }, goods: { kind: 'garment' }, factorBand: { low: 0.6, high: 0.5 } })).toEqual(['#/factorBand/low']);
});
