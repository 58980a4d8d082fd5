import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const HALL = { from: 'hall-air', air: { airTempC: 24, relativeHumidityPct: 60 }, stillAir: false };
const estimate = (body: object, language = 'en', from: TestNetwork = network) => from.post('/v1/estimates/heat', { heat: HALL, ...body }, { 'accept-language': language, 'idempotency-key': '' }).expect(200);
const codes = (body: { notes: { code: string }[] }) => body.notes.map(({ code }) => code);

test('moderate work in a hall at 24 C and 60 %: all hour in cloth, none in a vapour-barrier suit, a quarter of an hour for who is used to heat; nothing is stored', async () => {
  const before = await networkDigest(server.admin, network.networkId);
  const [cloth, suit, used] = [await estimate({}), await estimate({ wear: { clothing: 'vapour-barrier' } }), await estimate({ wear: { clothing: 'vapour-barrier' }, person: { acclimatised: true, kind: 'used' } })];
  expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  expect(cloth.body).toMatchObject({ wbgtC: 20.22, marginC: 0, wbgtMark: 'own-calibration', effort: 'moderate', workMinutesPerHour: 60, stop: false, limitC: 24.97 });
  expect(suit.body).toMatchObject({ clothingAdditionC: 11, wbgtWithClothingC: 31.22, workMinutesPerHour: 0, restMinutesPerHour: 60, stop: true, shiftSharePct: 20, longestUnwatchedMin: 120 });
  expect(codes(suit.body)).toEqual(expect.arrayContaining(['heat_stop', 'rest_elsewhere', 'ramp', 'look_at_person', 'drink', 'buddy', 'signs', 'pulse_rule', 'estimate_meter_better']));
  expect(used.body).toMatchObject({ workMinutesPerHour: 15, restMinutesPerHour: 45, shiftSharePct: 100, stop: false });
});

test('equipment of a step says what clothing it is, and the step how hard the work is', async () => {
  const { body } = await estimate({ wear: { ppe: ['nitrile gloves', 'disposable coverall', 'fit-tested respirator'] }, step: 'assess' });
  expect(body).toMatchObject({ clothing: 'film-coverall', effort: 'light', clothingAdditionC: 1 });
  expect((await estimate({ step: 'blot', tooHeavyForOne: true })).body).toMatchObject({ effort: 'heavy', clothing: 'work-clothes' });
  const sealed = await estimate({ wear: { ppe: ['fully encapsulating suit'] } });
  expect(sealed.body.stop).toBe(true);
  expect(codes(sealed.body)).toContain('suit_outside_tables');
});

test('a meter, its thermometers and the air outside are told apart', async () => {
  expect((await estimate({ heat: { from: 'meter', wbgtC: 27, air: { airTempC: 35, relativeHumidityPct: 60 } } })).body).toMatchObject({ wbgtC: 27, marginC: 0, wbgtMark: 'published', workMinutesPerHour: 30, heatIndex: { indexC: 45.1, band: 'danger' } });
  expect((await estimate({ heat: { from: 'thermometers', naturalWetBulbC: 25, globeC: 45, airTempC: 32, inSun: true } })).body).toMatchObject({ wbgtC: 29.7, wbgtMark: 'published', heatIndex: null });
  const outside = await estimate({ heat: { from: 'outdoor-air', air: { airTempC: 32, relativeHumidityPct: 60 } } });
  expect(outside.body).toMatchObject({ wbgtC: 33.3, wbgtMark: 'common-practice' });
  expect(codes(outside.body)).toContain('estimate_moderate_sun');
});

test('a margin that the network has raised counts and is shown', async () => {
  const other = await server.network();
  const incident = await other.incident();
  await other.put('/v1/calibration/climate/wbgtStillAirMarginC', { value: 2, reason: 'Our meter reads 2 above the estimate.', personId: incident.person('P1') }, { 'if-match': '"0"' }).expect(200);
  const still = { heat: { ...HALL, stillAir: true } };
  const [ours, theirs] = [await estimate(still), await estimate(still, 'en', other)];
  expect([ours.body.marginC, theirs.body.marginC]).toEqual([0.5, 2]);
  expect(theirs.body.wbgtC - ours.body.wbgtC).toBeCloseTo(1.5, 2);
  expect(theirs.body.basis.find(({ what }: { what: string }) => what === 'wbgtStillAirMarginC')).toMatchObject({ value: 2, mark: 'own-calibration' });
});

test('the words are those of the reader', async () => {
  const { body, headers } = await estimate({ wear: { clothing: 'vapour-barrier' } }, 'es');
  expect(headers['content-language']).toBe('es');
  expect(body.notes[0]).toMatchObject({ code: 'heat_stop', text: expect.stringMatching(/^Demasiado calor/) });
});
