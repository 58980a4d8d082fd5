import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

test('what cannot be is named by its place', async () => {
  const { body } = await network.post('/v1/estimates/heat', { heat: { from: 'meter', wbgtC: 99 }, wear: { clothing: 'armour' }, effort: 'idle', step: 'dance', person: { dayInHeat: 0, pulsePerMin: 999 }, sunshineShare: 3 }).expect(400);
  expect(body.errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual(['#/effort', '#/heat/wbgtC', '#/person/dayInHeat', '#/person/pulsePerMin', '#/step', '#/sunshineShare', '#/wear/clothing']);
});

test('heat from nowhere is refused', async () => {
  const { body } = await network.post('/v1/estimates/heat', { heat: { from: 'guess' } }).expect(400);
  expect(body.errors[0].pointer).toMatch(/^#\/heat/);
});

test('the hottest numbers that a body may hold get an answer, not an error', async () => {
  for (const heat of [{ from: 'meter', wbgtC: 60, air: { airTempC: 60, relativeHumidityPct: 100 } }, { from: 'thermometers', naturalWetBulbC: 50, globeC: 90, airTempC: 60, inSun: true }, { from: 'outdoor-air', air: { airTempC: 60, relativeHumidityPct: 100 } }, { from: 'hall-air', air: { airTempC: -30, relativeHumidityPct: 0 } }]) {
    await network.post('/v1/estimates/heat', { heat, wear: { clothing: 'vapour-barrier', hood: true } }).expect(200);
  }
});
