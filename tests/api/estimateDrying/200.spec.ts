import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const COVER = { material: 'cotton', dryMassKg: 2.4, faceAreaM2: 4, placement: 'hung-single', build: 'thin', moistureX: 1.2, airReach: 'open-rack' };
const estimate = (goods: object, air: object = {}, more: object = {}, language = 'en') =>
  network.post('/v1/estimates/drying', { air: { airTempC: 20, relativeHumidityPct: 50, ...air }, goods, ...more }, { 'accept-language': language, 'idempotency-key': '' }).expect(200);
const codes = (body: { notes: { code: string }[] }): string[] => body.notes.map(({ code }) => code);

test('the cover of the physics guidance takes 10.49 h on an open rack, with its band, its air and its marks; nothing is stored', async () => {
  const before = await networkDigest(server.admin, network.networkId);
  const { body } = await estimate(COVER);
  expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  expect(body).toMatchObject({ hours: 10.49, tooDamp: false, notes: [], estimatedAt: '2026-05-09T07:00:00.000Z' });
  expect(body.air).toMatchObject({ wetBulbC: 13.78, pressurePa: 101_325 });
  expect(body.goods).toMatchObject({ exposedAreaM2: 8, arrangementFactor: 0.65, targetX: 0.085, wetMassKg: 5.28, targetMassKg: 2.604, waterToRemoveKg: 2.676 });
  expect(body.fluxKgPerM2H).toBeCloseTo(0.05746 * 0.65, 4);
  expect([body.earliestH, body.latestH]).toEqual([7.34, 14.99]);
  const marks = new Map(body.basis.map(({ what, mark }: { what: string; mark: string }) => [what, mark]));
  expect(Object.fromEntries(marks)).toMatchObject({ moistAir: 'published', poolEquation: 'published', poolEquationStillAir: 'from-memory', 'regainAt65X of cotton': 'published', 'saturationX of cotton': 'from-memory', openRackFactor: 'own-calibration' });
});

test('a packed rack takes 19.48 h and a fan 3.95 h; air of 80 % never dries it', async () => {
  expect((await estimate({ ...COVER, airReach: 'packed-rack' })).body.hours).toBe(19.48);
  expect((await estimate({ ...COVER, airReach: 'fan-across' }, { airSpeedMPerS: 1 })).body.hours).toBe(3.95);
  const damp = (await estimate(COVER, { relativeHumidityPct: 80 })).body;
  expect(damp).toMatchObject({ hours: null, earliestH: null, latestH: null, tooDamp: true });
  expect(damp.inWords).toContain('too damp');
});

test('what is not told is assumed on the cautious side and named; a usual thing needs no sizes', async () => {
  const { body } = await estimate({ material: 'wool', dryMassKg: 1, faceAreaM2: 2 });
  expect(codes(body)).toEqual(['stage-assumed', 'arrangement-assumed', 'build-assumed', 'placement-assumed']);
  expect(body.goods).toMatchObject({ build: 'thick', exposedAreaM2: 2, arrangementFactor: 0.35 });
  const quilt = (await estimate({ kind: 'double-quilt', stage: 'blotted', airReach: 'open-rack' })).body;
  expect(codes(quilt)).toEqual(['size-from-kind']);
  expect(quilt.goods).toMatchObject({ dryMassKg: 2.1, startX: 1.25 });
});

test('thick goods get a band and no number, in the words of the reader', async () => {
  const { body, headers } = await estimate({ ...COVER, build: 'thick' }, {}, {}, 'es');
  expect(headers['content-language']).toBe('es');
  expect(body.hours).toBeNull();
  expect(body.latestH / body.earliestH).toBeGreaterThan(4);
  expect(body.inWords).toMatch(/^Entre 7\.3 y 42 h:/);
});

test('a fitted factor with its interval takes the place of the general error', async () => {
  const { body } = await estimate({ ...COVER, arrangementFactor: 0.5 }, {}, { factorBand: { low: 0.45, high: 0.55 } });
  expect(body.hours).toBeCloseTo((10.49 * 0.65) / 0.5, 1);
  expect(body.earliestH).toBeCloseTo((body.hours * 0.5) / 0.55, 1);
  expect(body.latestH).toBeCloseTo((body.hours * 0.5) / 0.45, 1);
});

test('thinner air at height changes the air and the rate', async () => {
  const [sea, high] = [(await estimate(COVER)).body, (await estimate(COVER, { altitudeM: 1_500 })).body];
  expect(high.air.pressurePa).toBeCloseTo(84_556, -2);
  expect(high.air.wetBulbC).toBeLessThan(sea.air.wetBulbC);
  expect(high.hours).not.toBe(sea.hours);
});

test("the network's own calibration counts", async () => {
  const own = await server.network();
  const person = (await own.incident()).person('P1');
  await own.put('/v1/calibration/climate/openRackFactor', { value: 0.5, reason: 'Weighed twenty covers.', personId: person }, { 'if-match': '"0"' }).expect(200);
  const { body } = await own.post('/v1/estimates/drying', { air: { airTempC: 20, relativeHumidityPct: 50 }, goods: COVER }).expect(200);
  expect(body.goods.arrangementFactor).toBe(0.5);
  expect(body.basis.find(({ what }: { what: string }) => what === 'openRackFactor').value).toBe(0.5);
});
