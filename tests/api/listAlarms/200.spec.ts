import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { alarmsOf, readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const at = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));

/** A freezer is read by a sensor in it. */
async function readFreezer(...readings: [time: string, tempC: number][]): Promise<void> {
  await bench.network.post(`/v1/incidents/${bench.incident.id}/readings`, { readings: readings.map(([time, airTempC]) => ({ sensor: 'FZ', measuredAt: `2026-05-09T${time}:00Z`, airTempC })) }).expect(200);
  await reckonAir(bench.server, bench.network);
}

test('rooms and freezers are alarming each for itself; lists are of open ones, by kind, by thing, page by page, the newest first', async () => {
  await bench.network.post(`/v1/incidents/${bench.incident.id}/sensors`, { code: 'FZ', name: 'In the chest freezer', placeKind: 'freezer', placeId: bench.incident.freezer('F1') }).expect(201);
  // An empty freezer thaws nothing.
  await bench.takeIn(await bench.household(), { to: bench.freezer() });
  at('08:00');
  await readRoom(bench.network, bench.incident, '2026-05-09T07:59:00Z', 83);
  await reckonAir(bench.server, bench.network);
  at('10:00');
  await readFreezer(['09:00', -18], ['09:20', -12], ['09:40', -11]);
  expect(await alarmsOf(bench.network, bench.incident)).toMatchObject([
    { kind: 'freezer-warm', severity: 'warning', subject: { kind: 'freezer', code: 'F1' }, numbers: { tempC: -11, limitC: -15, aboveSince: '2026-05-09T09:20:00.000Z' } }, { kind: 'room-mould-possible' }, { kind: 'room-over-cap' },
  ]);
  expect((await alarmsOf(bench.network, bench.incident, `?subjectId=${bench.incident.room('ROOM')}`)).map(({ kind }) => kind)).toEqual(['room-mould-possible', 'room-over-cap']);
  expect(await alarmsOf(bench.network, bench.incident, '?kind=freezer-warm')).toHaveLength(1);
  const first = (await bench.network.get(`/v1/incidents/${bench.incident.id}/alarms?limit=2`).expect(200)).body;
  const second = (await bench.network.get(`/v1/incidents/${bench.incident.id}/alarms?limit=2&cursor=${encodeURIComponent(first.nextCursor)}`).expect(200)).body;
  expect([...first.items, ...second.items].map(({ kind }: { kind: string }) => kind)).toEqual(['freezer-warm', 'room-mould-possible', 'room-over-cap']);
  expect(second.nextCursor).toBeNull();

  at('11:00');
  await readFreezer(['10:30', 0.8], ['10:45', 1.5]);
  expect(await alarmsOf(bench.network, bench.incident, '?kind=freezer-thawing')).toMatchObject([{ severity: 'danger' }]);
  at('12:00');
  await readFreezer(['11:30', -19]);
  expect((await alarmsOf(bench.network, bench.incident)).map(({ kind }) => kind)).toEqual(['room-mould-possible', 'room-over-cap']);
  expect((await alarmsOf(bench.network, bench.incident, '?state=cleared')).map(({ kind }) => kind)).toEqual(['freezer-thawing', 'freezer-warm']);
  expect(await alarmsOf(bench.network, bench.incident, '?state=all')).toHaveLength(4);
});

test('clocks of many things in a room are one alarm, which counts them and says when it has grown since it was seen', async () => {
  const household = await bench.household();
  const quilts: { id: string; tag: string }[] = [];
  for (let i = 0; i < 2; i += 1) {
    const quilt = await bench.testedQuilt(household, { sizeClass: 'crib-quilt' });
    for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
    quilts.push(quilt);
  }
  const [first, second] = quilts as [{ id: string; tag: string }, { id: string; tag: string }];
  at('13:00');
  await bench.hang(first.id);
  // In damp air its clock reaches amber within the day.
  at('23:00');
  for (const hour of [14, 16, 18, 20, 22]) await readRoom(bench.network, bench.incident, `2026-05-09T${hour}:30:00Z`, 92, 24);
  await reckonAir(bench.server, bench.network);
  const [alarm] = await alarmsOf(bench.network, bench.incident, '?kind=clock-amber');
  expect(alarm).toMatchObject({ numbers: { items: 1, households: 1 }, items: [{ itemId: first.id, tag: first.tag }] });
  await bench.network.post(`/v1/alarms/${alarm!.id}/acknowledgements`, { personId: bench.incident.person('P1') }).expect(201);
  await bench.hang(second.id);
  await reckonAir(bench.server, bench.network);
  expect(await alarmsOf(bench.network, bench.incident, '?kind=clock-amber')).toMatchObject([{ id: alarm!.id, numbers: { items: 2 }, acknowledged: { grownSince: true } }]);
});
