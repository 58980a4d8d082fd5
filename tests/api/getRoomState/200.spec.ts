import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { alarmsOf, readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const at = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));
const room = () => bench.incident.room('ROOM');

test('a room that nothing was reckoned of says so; after the first reading it tells air, water and clocks', async () => {
  expect((await bench.network.get(`/v1/drying-rooms/${room()}/climate`).expect(200)).body).toMatchObject({ room: { code: 'ROOM' }, climate: null, openAlarms: 0 });
  const quilt = await bench.testedQuilt(await bench.household());
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  at('08:00');
  await readRoom(bench.network, bench.incident, '2026-05-09T07:58:00Z', 62);
  expect(new Set(await reckonAir(bench.server, bench.network))).toEqual(new Set(['stored']));
  const { body } = await bench.network.get(`/v1/drying-rooms/${room()}/climate`).expect(200);
  expect(body.climate).toMatchObject({ asOf: '2026-05-09T08:00:00.000Z', relativeHumidityPct: 62, measured: true, readAt: '2026-05-09T07:58:00.000Z', state: 'below-cap', things: 1, dryThings: 0, machinesRunning: 1, clocks: { inTime: 1, amber: 0, red: 0, none: 0 }, overCapAt: null });
  expect(body.climate.waterLeftKg).toBeGreaterThan(1);
  expect(body.climate.waterLeftKg).toBeLessThan(3);
  expect(body.climate.evaporationKgPerH).toBeGreaterThan(0);
  expect(body.climate.dehumidifiersKgPerH).toBeGreaterThan(1);
  expect(await alarmsOf(bench.network, bench.incident)).toEqual([]);
});

test('when the sensor falls silent the air is reckoned, an alarm says so, and it clears with the next reading', async () => {
  at('13:00');
  expect(await reckonAir(bench.server, bench.network, 'climate.tick')).toEqual(['stored']);
  const { body } = await bench.network.get(`/v1/drying-rooms/${room()}/climate`).expect(200);
  expect(body.climate).toMatchObject({ measured: false, readAt: '2026-05-09T07:58:00.000Z' });
  expect(await alarmsOf(bench.network, bench.incident)).toMatchObject([{ kind: 'sensor-silent', subject: { kind: 'drying-room', id: room() } }]);
  await readRoom(bench.network, bench.incident, '2026-05-09T12:59:00Z', 64);
  await reckonAir(bench.server, bench.network);
  expect(await alarmsOf(bench.network, bench.incident)).toEqual([]);
  expect(await alarmsOf(bench.network, bench.incident, '?state=cleared')).toMatchObject([{ kind: 'sensor-silent' }]);
});
