import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const START = '2026-05-08T19:00:00Z';
const hour = (hours: number) => new Date(Date.parse(START) + hours * 3_600_000).toISOString();
const inHall = { from: START, placement: 'room', place: 'HALL' };
const hourly = (hours: number, airTempC = 22, relativeHumidityPct = 70) => Array.from({ length: hours + 1 }, (_, i) => ({ measuredAt: hour(i), airTempC, relativeHumidityPct, place: 'HALL' }));
const estimate = (body: object, from: TestNetwork = network, language = 'en') => from.post('/v1/estimates/clock', { start: START, ...body }, { 'accept-language': language, 'idempotency-key': '' }).expect(200);

test('twelve measured hours at 22 C of a thing nobody weighed are a quarter of the 48 h rule, with the band of the sources; nothing is stored', async () => {
  const before = await networkDigest(server.admin, network.networkId);
  // The time of the server: twelve hours after the start.
  const { body } = await estimate({ stays: [inHall], readings: hourly(12) });
  expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  expect(body).toMatchObject({
    until: '2026-05-09T07:00:00.000Z', estimatedAt: '2026-05-09T07:00:00.000Z',
    mould: { dose: 0.25, doseBand: { lowest: 0.1667, highest: 0.5 }, state: 'in-time', paused: false, hoursLeft: 36, hoursLeftBand: { shortest: 12, longest: 60 }, hoursBy: { measured: 12, interpolated: 0, assumed: 0 }, assumedShare: 0 },
    segments: [{ from: '2026-05-08T19:00:00.000Z', hours: 12, basis: 'measured', place: 'HALL', paused: false, doseGained: 0.25 }],
    notes: [{ code: 'wetness_unknown' }],
  });
  expect(body.mould.inWords).toBe('About 36 h are left by the rule of practice if nothing changes; the sources span 12 to 60 h.');
});

test('a gap counts on the cautious side and says so, and in the freezer the clock stands still', async () => {
  const readings = [...hourly(2), { measuredAt: hour(20), airTempC: 24, relativeHumidityPct: 80, place: 'HALL' }, { measuredAt: hour(20), airTempC: -19, place: 'F1' }, ...[22, 24, 26].map((at) => ({ measuredAt: hour(at), airTempC: -20, place: 'F1' }))];
  const { body } = await estimate({ until: hour(26), stays: [inHall, { from: hour(20), placement: 'freezer', place: 'F1' }], readings, wetness: [{ from: START, moistureX: null }] });
  expect(body.segments.map((one: { hours: number; basis: string; paused: boolean }) => [one.hours, one.basis, one.paused])).toEqual([[2, 'measured', false], [18, 'assumed', false], [6, 'interpolated', true]]);
  expect(body.mould).toMatchObject({ paused: true, hoursLeft: null, pausedHours: 6, hoursBy: { measured: 2, interpolated: 6, assumed: 18 } });
  expect(body.mould.assumedShare).toBeGreaterThan(0.85);
  const assumed = body.notes.find(({ code }: { code: string }) => code === 'dose_assumed');
  expect(assumed.text).toContain('nobody measured the air for 18 h');
});

test('the published index and the second model stand beside it, and clocks of other damage by the hours of the rule book', async () => {
  const damage = [{ clock: 'coated-paper', holdings: [{ from: hour(2), holding: 'kept-wet' }] }, { clock: 'collodion-plate', holdings: [{ from: hour(1), holding: 'frozen' }] }];
  const { body } = await estimate({ until: hour(24 * 7), stays: [inHall], readings: hourly(24 * 7, 22, 100), damage });
  // Physics, computed: very sensitive at 22 C and saturation, seven days.
  expect(body.vtt.index).toBeCloseTo(1.197, 3);
  expect(body.secondModel).toEqual({ doseDays: expect.closeTo(7 * 5.513, 1), criticalDays: 17 });
  expect(body.mould.state).toBe('red');
  expect(body.damage).toMatchObject([
    { clock: 'coated-paper', state: 'in-time', usedHours: 2, stopped: true, hoursLeft: null, warnHours: 3, deadlineHours: 6 },
    { clock: 'collodion-plate', state: 'red', stopped: false, hoursLeft: 0, notes: [{ code: 'holding_harms' }, { code: 'no_temperature_dependence' }] },
  ]);
});

test('every constant has its mark and source, and our own calibration is that of the network', async () => {
  const other = await server.network();
  const incident = await other.incident();
  await other.put('/v1/calibration/climate/mouldHoursAtReference', { value: 36, reason: 'Our hall is dirty.', personId: incident.person('P1') }, { 'if-match': '"0"' }).expect(200);
  const asked = { stays: [inHall], readings: hourly(12) };
  const [ours, theirs] = [await estimate(asked), await estimate(asked, other)];
  const basisOf = ({ body }: { body: { basis: { what: string; value: number; mark: string }[] } }, what: string) => body.basis.find((one) => one.what === what);
  expect(basisOf(ours, 'mouldHoursAtReference')).toMatchObject({ value: 48, mark: 'own-calibration' });
  expect(basisOf(theirs, 'mouldHoursAtReference')).toMatchObject({ value: 36, mark: 'own-calibration' });
  expect(theirs.body.mould.dose).toBeCloseTo(12 / 36, 4);
  expect(basisOf(ours, 'humidityExponent')).toMatchObject({ value: 13.9, mark: 'published' });
  expect(basisOf(ours, 'vttDecline')).toMatchObject({ mark: 'from-memory' });
  for (const { source } of ours.body.basis) expect(source).toMatch(/\w{4,}/);
});

test('sending the dose on is the same as sending the whole history', async () => {
  const readings = hourly(24, 18, 85);
  const whole = await estimate({ until: hour(24), stays: [inHall], readings });
  const half = await estimate({ until: hour(10), stays: [inHall], readings });
  const rest = await estimate({ start: hour(10), until: hour(24), startDose: half.body.mould.dose, stays: [inHall], readings });
  expect(rest.body.mould.dose).toBeCloseTo(whole.body.mould.dose, 3);
});

test('nobody knows anything: the warm side counts, all of it assumed', async () => {
  const { body } = await estimate({ until: hour(12) });
  expect(body.mould).toMatchObject({ assumedShare: 1, hoursBy: { measured: 0, interpolated: 0, assumed: 12 } });
  expect(body.segments).toMatchObject([{ placement: 'unknown', surfaceTempC: { lowest: 25, highest: 25 }, waterActivity: { lowest: 1 } }]);
});

test('the words are those of the reader', async () => {
  const spanish = await estimate({ stays: [inHall], readings: hourly(12) }, network, 'es');
  expect(spanish.headers['content-language']).toBe('es');
  expect(spanish.body.mould.inWords).toBe('Según la regla práctica quedan unas 36 h si nada cambia; las fuentes van de 12 a 60 h.');
});
