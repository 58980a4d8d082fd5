import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const MACHINE = { ratedLitresPerDay: 20, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 };
const ROOM_A = { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, airChangesPerH: 0.5, outdoorTempC: 12, outdoorRelativeHumidityPct: 80, dehumidifiers: [{ ...MACHINE, count: 2 }] };
const COVERS = { name: 'covers', material: 'cotton', dryMassKg: 0.5, faceAreaM2: 1.5, placement: 'hung-single', build: 'thin', moistureX: 1, airReach: 'open-rack', count: 40 };
const estimate = (room: object, goods: object[] = [COVERS], more: object = {}, language = 'en') =>
  network.post('/v1/estimates/room', { room, goods, ...more }, { 'accept-language': language, 'idempotency-key': '' }).expect(200);
const codes = (notes: { code: string }[]): string[] => notes.map(({ code }) => code);
type WhatIf = { name: string; recommended: boolean; peakRelativeHumidityPct: number; hoursSaved: number; notes: { code: string; text: string }[] };

test('worked room A: 77.23 %, 1.9237 = 0.1534 + 1.7702 kg/h, dry after 10.2 h, dose 0.15; nothing is stored', async () => {
  const before = await networkDigest(server.admin, network.networkId);
  const { body } = await estimate(ROOM_A);
  expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  expect(body.steady).toMatchObject({ relativeHumidityPct: 77.23, evaporationKgPerH: 1.9237, outdoorAirKgPerH: 0.1534, dehumidifiersKgPerH: 1.7702, condensationKgPerH: 0 });
  expect(body).toMatchObject({ capPct: 75, brokenLimit: 'humidity-cap', estimatedAt: '2026-05-09T07:00:00.000Z' });
  expect(body.allDryAtH).toBeCloseTo(10.21, 1);
  expect(body.goods[0]).toMatchObject({ name: 'covers', count: 40, waterToRemoveKg: 18.3 });
  expect(body.goods[0].mouldDoseGained).toBeCloseTo(0.151, 2);
  expect(body.course.find(({ atH }: { atH: number }) => atH === 3).moistureX[0]).toBeCloseTo(0.705, 3);
  const { evaporatedKg, outdoorAirKg, dehumidifiedKg } = body.water;
  expect(Math.abs(evaporatedKg - outdoorAirKg - dehumidifiedKg)).toBeLessThan(0.3);
});

test('what a coordinator sees: a fan without more machines is warned of, one more machine stands first, and the electrician is named', async () => {
  const { body } = await estimate(ROOM_A);
  expect(codes(body.notes)).toEqual(expect.arrayContaining(['over-cap', 'windows-would-help', 'electric-load-one-circuit']));
  expect(body.notes.find(({ code }: { code: string }) => code.startsWith('electric')).text).toContain('licensed electrician');
  const whatIfs: WhatIf[] = body.whatIfs;
  expect(whatIfs[0]).toMatchObject({ name: 'one-more-machine', recommended: true });
  const fan = whatIfs.find(({ name }) => name === 'fan')!;
  expect(fan.recommended).toBe(false);
  expect(fan.peakRelativeHumidityPct).toBeCloseTo(90.5, 0);
  expect(fan.notes[0]).toMatchObject({ code: 'fan-without-removal', text: expect.stringContaining('90 %') });
});

test('worked room A with the fan in it already: the lesson stands among the warnings', async () => {
  const { body } = await estimate({ ...ROOM_A, airSpeedMPerS: 1, fans: 1 }, [{ ...COVERS, airReach: 'fan-across' }]);
  expect(body.steady.relativeHumidityPct).toBeCloseTo(90.49, 2);
  expect(body.notes.find(({ code }: { code: string }) => code === 'fan-without-removal').text).toMatch(/^Moving air lifts the room to about 90 % and saves about 1\.2 h/);
  expect(body.whatIfs.map(({ name }: WhatIf) => name)).not.toContain('fan');
});

test('without machines the same room runs into mould before it is dry', async () => {
  const { body } = await estimate({ ...ROOM_A, dehumidifiers: [] }, [COVERS], { withinH: 96 });
  expect(body.steady.relativeHumidityPct).toBe(96.84);
  expect(codes(body.notes).slice(0, 2)).toEqual(['over-cap', 'mould-before-dry']);
  expect(body.goods[0].mouldDoseAtEnd).toBeGreaterThan(1);
});

test('open windows are recommended only where outdoor air is drier', async () => {
  const muggy = (await estimate({ ...ROOM_A, outdoorTempC: 22, outdoorRelativeHumidityPct: 90 })).body;
  expect(codes(muggy.notes)).toContain('keep-windows-closed');
  const open = muggy.whatIfs.find(({ name }: WhatIf) => name === 'open-windows');
  expect(open.recommended).toBe(false);
  expect(codes(open.notes)).toContain('windows-not-drier');
});

test('changes of the caller are tried instead, and goods are taken off by name', async () => {
  const whatIfs = [{ name: 'half', changes: [{ kind: 'take-off', goods: 'covers', count: 20 }] }, { name: 'two machines', changes: [{ kind: 'add-dehumidifier', machine: { ...MACHINE, count: 2 } }] }];
  const { body } = await estimate(ROOM_A, [COVERS], { whatIfs });
  expect(body.whatIfs.map(({ name }: WhatIf) => name).toSorted()).toEqual(['half', 'two machines']);
  const half = body.whatIfs.find(({ name }: WhatIf) => name === 'half');
  expect(half.peakRelativeHumidityPct).toBeCloseTo(65.6, 1);
  expect(half.allDryAtH).toBeCloseTo(6.76, 1);
});

test('an empty room is answered too, and the words are those of the reader', async () => {
  const { body } = await estimate(ROOM_A, []);
  expect(body).toMatchObject({ goods: [], brokenLimit: null, allDryAtH: 0 });
  const spanish = await estimate(ROOM_A, [COVERS], {}, 'es');
  expect(spanish.headers['content-language']).toBe('es');
  expect(spanish.body.notes[0].text).toMatch(/^El aire sube a cerca de 77 %/);
});
