import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { alarmsOf, readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

test('somebody sees an alarm by name; it stays open, and keeps the name after it has cleared', async () => {
  bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z'));
  await readRoom(bench.network, bench.incident, '2026-05-09T07:59:00Z', 77);
  await reckonAir(bench.server, bench.network);
  const [alarm] = await alarmsOf(bench.network, bench.incident);
  const answer = await bench.network.post(`/v1/alarms/${alarm!.id}/acknowledgements`, { personId: bench.incident.person('P3'), note: 'Emptied the tank.' }).expect(201);
  expect(answer.body).toMatchObject({ id: alarm!.id, version: 2, acknowledged: { at: '2026-05-09T08:00:00.000Z', by: bench.incident.person('P3'), byName: 'Helper three', note: 'Emptied the tank.', grownSince: false }, clearedAt: null });
  expect(answer.headers['etag']).toBe('"2"');
  expect(await alarmsOf(bench.network, bench.incident)).toHaveLength(1);
  bench.server.clock.set(Date.parse('2026-05-09T09:00:00Z'));
  await readRoom(bench.network, bench.incident, '2026-05-09T08:59:00Z', 60);
  await reckonAir(bench.server, bench.network);
  expect(await alarmsOf(bench.network, bench.incident, '?state=cleared')).toMatchObject([{ id: alarm!.id, acknowledged: { byName: 'Helper three' }, clearedAt: '2026-05-09T09:00:00.000Z', clearedBy: { relativeHumidityPct: 60 } }]);
});
