import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const at = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));

test('what never hung has no standing; what hangs has water, a band and a clock; what was taken down keeps the last of them', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const climate = async () => (await bench.network.get(`/v1/items/${quilt.id}/climate`).expect(200)).body;
  expect(await climate()).toMatchObject({ itemId: quilt.id, tag: quilt.tag, room: null, standing: null });
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  at('09:00');
  for (const time of ['07:30', '08:00', '08:30', '09:00']) await readRoom(bench.network, bench.incident, `2026-05-09T${time}:00Z`, 55);
  await reckonAir(bench.server, bench.network);
  const hanging = await climate();
  expect(hanging).toMatchObject({ room: { code: 'ROOM' }, standing: { hungAt: '2026-05-09T07:00:00.000Z', takenAt: null, build: 'thick', isDry: false, dryExpectedAt: null, water: { basis: 'stage' }, clock: { state: 'in-time', paused: false } } });
  const { water, clock, dryEarliestAt } = hanging.standing;
  expect(water.leftAtMostKg).toBeGreaterThan(water.leftKg);
  expect(Date.parse(dryEarliestAt)).toBeGreaterThan(Date.parse('2026-05-09T09:00:00Z'));
  // Wetted at 18:00 the evening before: thirteen hours nobody measured, two that were.
  expect(clock.assumedHours).toBeGreaterThan(12);
  expect(clock.measuredHours).toBeGreaterThan(1.4);
  expect(clock.hoursLeftShortest).toBeLessThan(clock.hoursLeft);
  expect(clock.hoursLeftLongest).toBeGreaterThan(clock.hoursLeft);

  await bench.network.post(`/v1/items/${quilt.id}/weighings`, { scaleKg: 3, resolutionKg: 0.01, weighedAt: '2026-05-09T09:00:00Z', personId: bench.incident.person('P1') }).expect(201);
  await reckonAir(bench.server, bench.network);
  const weighed = await climate();
  expect(weighed.standing.water).toMatchObject({ basis: 'weighed', knownAt: '2026-05-09T09:00:00.000Z' });
  expect(weighed.standing.water.moistureX).toBeCloseTo(3 / 2.1 - 1, 4);
  expect(hanging.standing.weighing).toBeNull();
  expect(weighed.standing.weighing).toMatchObject({ decision: 'not-yet', code: 'above-target', inWords: 'Not yet: by weight it still holds water.' });
  expect(Date.parse(weighed.standing.weighing.weighAgainAt)).toBeGreaterThan(Date.parse('2026-05-09T09:00:00Z'));

  at('10:00');
  await bench.pass(quilt.id, 'drying-ended', bench.holding('clean'));
  await readRoom(bench.network, bench.incident, '2026-05-09T10:00:00Z', 55);
  await reckonAir(bench.server, bench.network);
  const taken = await climate();
  expect(taken.standing).toMatchObject({ takenAt: '2026-05-09T10:00:00.000Z', isDry: false });
  expect(taken.standing.water.moistureX).toBeLessThan(weighed.standing.water.moistureX);
  expect(taken.standing.clock.dose).toBeGreaterThan(clock.dose);
});
