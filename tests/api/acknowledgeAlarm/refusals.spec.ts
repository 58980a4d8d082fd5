import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';
import { alarmsOf, readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
let alarmId: string;
beforeAll(async () => {
  bench = await Workbench.open();
  bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z'));
  await readRoom(bench.network, bench.incident, '2026-05-09T07:59:00Z', 77);
  await reckonAir(bench.server, bench.network);
  alarmId = (await alarmsOf(bench.network, bench.incident))[0]!.id;
});
afterAll(() => bench.close());

const acknowledge = (id: string, body: object) => bench.network.post(`/v1/alarms/${id}/acknowledgements`, body);

test('nobody, somebody unknown, and an alarm that never was are refused, and nothing is written', async () => {
  expect((await acknowledge(alarmId, {}).expect(400)).body).toMatchObject({ code: 'validation_failed', errors: [{ pointer: '#/personId' }] });
  expect((await acknowledge(alarmId, { personId: newId() }).expect(422)).body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/personId' }] });
  await acknowledge(newId(), { personId: bench.incident.person('P1') }).expect(404);
  expect(await alarmsOf(bench.network, bench.incident)).toMatchObject([{ acknowledged: null }]);
});

test('whoever comes second is told who was first', async () => {
  await acknowledge(alarmId, { personId: bench.incident.person('P1') }).expect(201);
  expect((await acknowledge(alarmId, { personId: bench.incident.person('P2') }).expect(409)).body).toMatchObject({ code: 'already_exists', acknowledgedBy: bench.incident.person('P1'), acknowledgedByName: 'Lead one' });
  expect(await alarmsOf(bench.network, bench.incident)).toMatchObject([{ acknowledged: { by: bench.incident.person('P1') } }]);
});
