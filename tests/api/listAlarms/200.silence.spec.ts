import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { alarmsOf, reckonAir } from '../support/air.js';
import { setNumber } from '../setCalibration/calibration.support.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const at = (hours: number) => bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z') + hours * 3_600_000);
const read = (reading: object) => bench.network.post(`/v1/incidents/${bench.incident.id}/readings`, { readings: [{ measuredAt: new Date(bench.server.clock.nowMs()).toISOString(), airTempC: -18, ...reading }] }).expect(200);
const byHand = { placeKind: 'freezer', place: 'F1' };

/** The alarm of silence about the freezer after a look at this hour. */
async function silentAt(hours: number) {
  at(hours);
  await reckonAir(bench.server, bench.network);
  await reckonAir(bench.server, bench.network, 'climate.tick');
  return alarmsOf(bench.network, bench.incident, '?kind=sensor-silent');
}

test('a freezer that people look at is silent after half a day, and by the number that the network has set', async () => {
  await bench.takeIn(await bench.household(), { to: bench.freezer() });
  at(0);
  await read(byHand);
  expect(await silentAt(11.9)).toEqual([]);
  const [alarm] = await silentAt(12.1);
  expect(alarm).toMatchObject({ subject: { kind: 'freezer', code: 'F1' }, numbers: { limitH: 12, expectedEveryMinutes: null }, what: expect.stringMatching(/no reading for 12 h\.$/) });
  await setNumber(bench, 'alarms/silentByHandAfterH', 16);
  expect(await silentAt(12.3)).toEqual([]);
  expect(await silentAt(16.1)).toHaveLength(1);
});

test('with a sensor that says how often it reports it is silent by that, and by the shortest of those in service', async () => {
  const register = (code: string, expectedEveryMinutes: number | null) => bench.network.post(`/v1/incidents/${bench.incident.id}/sensors`, { code, name: code, placeKind: 'freezer', placeId: bench.incident.freezer('F1'), expectedEveryMinutes }).expect(201);
  at(20);
  const daily = (await register('DIAL', 1_440)).body;
  await read({ sensor: 'DIAL' });
  expect(await silentAt(55.9)).toEqual([]);
  expect(await silentAt(56.1)).toMatchObject([{ numbers: { limitH: 36, expectedEveryMinutes: 1_440 }, what: expect.stringMatching(/no reading for 36 h, where one is expected every 24 h\.$/) }]);
  const logger = (await register('LOG', 60)).body;
  at(57);
  await read({ sensor: 'LOG' });
  expect(await silentAt(58.4)).toEqual([]);
  expect(await silentAt(58.6)).toMatchObject([{ numbers: { limitH: 1.5, expectedEveryMinutes: 60 } }]);
  await bench.network.patch(`/v1/incidents/${bench.incident.id}/sensors/${logger.id}`, { state: 'withdrawn' }, { 'if-match': '"1"' }).expect(200);
  expect(await silentAt(58.7)).toEqual([]);
  // Nobody says anything any more, and a logger has sent within the day.
  await bench.network.patch(`/v1/incidents/${bench.incident.id}/sensors/${daily.id}`, { expectedEveryMinutes: null }, { 'if-match': '"1"' }).expect(200);
  expect(await silentAt(60.1)).toMatchObject([{ numbers: { limitH: 3, expectedEveryMinutes: null } }]);
});

test('what a network has set of its alarms is not what another one goes by', async () => {
  const other = await bench.server.network();
  const incident = await other.incident();
  const { body } = await other.get('/v1/calibration').expect(200);
  expect(body.numbers.find(({ key }: { key: string }) => key === 'silentByHandAfterH')).toMatchObject({ inForce: 12, decision: null });
  expect(await alarmsOf(other, incident)).toEqual([]);
});
