import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const ROOM_A = { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, airChangesPerH: 0.5, outdoorTempC: 12, outdoorRelativeHumidityPct: 80, dehumidifiers: [{ ratedLitresPerDay: 20, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60, count: 2 }] };
const COVERS = { name: 'covers', material: 'cotton', dryMassKg: 0.5, faceAreaM2: 1.5, placement: 'hung-single', build: 'thin', moistureX: 1, airReach: 'open-rack', count: 60, rackM2PerItem: 1.5 };
const estimate = (body: object, language = 'en') => network.post('/v1/estimates/acceptance', { room: ROOM_A, waiting: [COVERS], ...body }, { 'accept-language': language, 'idempotency-key': '' }).expect(200);

test('the worked room takes 34 of 60 below its cap, and the machines are what binds; nothing is stored', async () => {
  const before = await networkDigest(server.admin, network.networkId);
  const { body } = await estimate({});
  expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
  expect(body).toMatchObject({ capPct: 75, acceptedItems: 34, bindingLimit: 'humidity-cap', allDryAtH: 9.25, freeRackM2Left: null });
  expect(body.waterKg).toBeCloseTo(15.6, 1);
  expect(body.waiting[0]).toMatchObject({ name: 'covers', waiting: 60, accepted: 34, limitedBy: 'humidity-cap', acceptedAlone: 34, rackM2: null });
  expect(body.inWords).toMatch(/^Hang 34 of 60 now: one more would lift the room above its humidity cap/);
});

test('without machines it takes 2', async () => {
  const { body } = await estimate({ room: { ...ROOM_A, dehumidifiers: [] } });
  expect(body).toMatchObject({ acceptedItems: 2, bindingLimit: 'humidity-cap' });
});

test('the rack is a limit of its own, and what hangs already takes its share', async () => {
  expect((await estimate({ freeRackM2: 12 })).body).toMatchObject({ acceptedItems: 8, bindingLimit: 'rack-area', freeRackM2Left: 0, waiting: [{ rackM2: 12 }] });
  const { rackM2PerItem: _rack, ...hanging } = COVERS;
  expect((await estimate({ hanging: [{ ...hanging, count: 20 }] })).body.acceptedItems).toBe(14);
});

test('kinds are served in the order given, and a thing close to red is refused by its clock', async () => {
  const tired = { ...COVERS, name: 'tired', count: 5, mouldDose: 0.95, airReach: 'packed-rack' };
  const { body } = await estimate({ waiting: [tired, { ...COVERS, count: 10 }] });
  expect(body.waiting.map(({ accepted, limitedBy }: { accepted: number; limitedBy: string }) => [accepted, limitedBy])).toEqual([[0, 'mould-clock'], [10, null]]);
  expect(body.bindingLimit).toBe('mould-clock');
});

test('when all fits it says so, in the words of the reader', async () => {
  const { body, headers } = await estimate({ waiting: [{ ...COVERS, count: 3 }] }, 'es');
  expect(headers['content-language']).toBe('es');
  expect(body).toMatchObject({ acceptedItems: 3, bindingLimit: null, inWords: 'Ahora se pueden colgar los 3.' });
});
