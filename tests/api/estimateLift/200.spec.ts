import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const estimate = (body: object, language = 'en') => network.post('/v1/estimates/lift', body, { 'accept-language': language, 'idempotency-key': '' }).expect(200);
const codes = (notes: { code: string }[]) => notes.map(({ code }) => code);

test('a wet double quilt from floor to table: its water weighed, the crew named, and what draining would change; nothing is stored', async () => {
  const before = await networkDigest(server.admin, network.networkId);
  const { body } = await estimate({ bundle: { dryMassKg: 2.8, stage: 'dripping', material: 'cotton', padded: true } });
  expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  expect(body).toMatchObject({ holds: true, loadKg: 9.8, moistureX: 2.5, limitKg: { origin: 8.67, destination: null, lower: 8.67 }, liftingIndex: 1.13, reading: 'raised', people: 2, teamKg: [8.67, 11.56, 13], aid: false, duration: 'moderate', lighter: [{ stage: 'drained', massKg: 7.42, people: 1 }, { stage: 'blotted', massKg: 6.3, people: 1 }] });
  expect(body.lighter[0].inWords).toBe('Once drained it weighs about 7.4 kg: a load for 1 person.');
  expect(codes(body.notes)).toEqual(['too_heavy_for_one', 'air_not_told', 'upper_screen']);
});

test('more than three may lift takes an aid, with the reason that a fourth adds nothing', async () => {
  const { body } = await estimate({ loadKg: 15 });
  expect(body).toMatchObject({ people: null, aid: true, moistureX: null, lighter: [] });
  expect(codes(body.notes)).toEqual(['use_an_aid', 'fourth_adds_nothing', 'air_not_told', 'upper_screen']);
});

test('outside of the equation there is no number but an aid or a trained person, with every reason', async () => {
  const { body } = await estimate({ loadKg: 3, circumstances: ['load-shifts', 'one-handed'], floorFriction: 0.3, air: { airTempC: 12, relativeHumidityPct: 85 }, spells: [{ liftingMin: 500, recoveryMin: 0 }] });
  expect(body).toMatchObject({ holds: false, limitKg: null, multipliers: null, liftingIndex: null, reading: null, people: null, teamKg: null, aid: true, duration: null });
  expect(codes(body.outside).sort()).toEqual(['air_too_cold', 'air_too_damp', 'load_shifts', 'one_handed', 'over_8_hours', 'slippery_floor']);
  expect(body.notes).toMatchObject([{ code: 'use_an_aid', text: expect.stringContaining('trained in manual handling') }]);
});

test('spells, pace and both ends count: Example 4 of the manual, in centimetres, within 3 %', async () => {
  const lift = { horizontalCm: 25.4, originCm: 55.88, placedAtCm: 149.86, placedReachCm: 50.8, coupling: 'fair' };
  const { body } = await estimate({ loadKg: 10, lift, liftsPerMin: 3, spells: [{ liftingMin: 60, recoveryMin: 60 }] });
  expect(body.duration).toBe('short');
  expect(Math.abs(body.limitKg.origin / 0.45359237 / 34.9 - 1)).toBeLessThan(0.03);
  expect(Math.abs(body.limitKg.destination / 0.45359237 / 15.2 - 1)).toBeLessThan(0.03);
  expect(body.limitKg.lower).toBe(body.limitKg.destination);
  const inSpells = await estimate({ loadKg: 10, lift, liftsPerMin: 10, liftingMinOf15: 8, spells: [{ liftingMin: 30, recoveryMin: 10 }, { liftingMin: 45, recoveryMin: 0 }] });
  expect(inSpells.body).toMatchObject({ liftsPerMin: 5.33, duration: 'moderate', recoveryNeededMin: 22.5 });
});

test('constants carry their marks, and the words are those of the reader', async () => {
  const { body, headers } = await estimate({ bundle: { dryMassKg: 2.1, stage: 'drained' } }, 'es');
  expect(body.basis.map(({ what, mark }: { what: string; mark: string }) => [what, mark])).toEqual([
    ['loadConstantKg', 'published'], ['multipliers', 'published'], ['couplingGoodAndPoor', 'from-memory'], ['teamShares', 'published'], ['liftOfAWetBundle', 'own-calibration'], ['drainedX', 'own-calibration'], ['drainedOfCeiling', 'own-calibration'],
  ]);
  expect(headers['content-language']).toBe('es');
  expect(body.standing).toMatch(/^Las normas locales/);
});
