import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const ROOM = { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80 };
const refused = async (body: object) => (await network.post('/v1/estimates/room', body).expect(400)).body;
const pointersOf = (body: { errors: { pointer: string }[] }): string[] => body.errors.map(({ pointer }) => pointer).toSorted();

test('a room below freezing, a label without its rating point and two goods of one name are named by their place', async () => {
  expect(pointersOf(await refused({ room: { ...ROOM, airTempC: -3, dehumidifiers: [{ ratedLitresPerDay: 20 }] }, goods: [] }))).toEqual(['#/room/airTempC', '#/room/dehumidifiers/0/ratedAtRelativeHumidityPct', '#/room/dehumidifiers/0/ratedAtTempC']);
  expect(pointersOf(await refused({ room: ROOM, goods: [{ name: 'a', kind: 'garment' }, { name: 'a', kind: 'throw' }] }))).toEqual(['#/goods/1/name']);
});

test('a change that names nothing of the list, or more than there is, says where', async () => {
  const goods = [{ name: 'covers', kind: 'garment', count: 3 }];
  const takeOff = (change: object) => refused({ room: ROOM, goods, whatIfs: [{ name: 'fewer', changes: [{ kind: 'fan', airSpeedMPerS: 1 }, { kind: 'take-off', ...change }] }] });
  const unknown = await takeOff({ goods: 'curtains', count: 1 });
  expect(unknown).toMatchObject({ code: 'validation_failed', errors: [{ pointer: '#/whatIfs/0/changes/1/goods', code: 'unknown_name' }] });
  expect(await takeOff({ goods: 'covers', count: 4 })).toMatchObject({ errors: [{ pointer: '#/whatIfs/0/changes/1/count' }] });
});
