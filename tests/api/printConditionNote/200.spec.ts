import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';
import { wordsOf } from '../../unit/documents/pictures.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('how it came, tests, steps by whose hands, and how it stands; no name of anybody; the same record has the same bytes', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await bench.startAt(quilt.id, 'RINSE');
  await bench.report(quilt.id, 'rinse', 'done', { stationId: bench.incident.station('RINSE'), withPersonIds: [bench.incident.person('P2')] }).expect(201);
  const read = () => bench.network.get(`/v1/items/${quilt.id}/condition-note`).expect(200);
  const { headers, body } = await read();
  expect(headers).toMatchObject({ 'content-type': 'application/pdf', 'content-disposition': 'inline; filename="condition-note.pdf"' });
  const text = (await wordsOf(body)).join('\n').replaceAll(/\s+/g, ' ');
  for (const said of ['Condition note', quilt.tag, 'As it came', 'red border', 'no dye on the swab', '2 people, rinsing; Station RINSE', household.code, 'by the clock of UTC']) expect(text).toContain(said);
  for (const name of ['Lead one', 'Tester two', 'Contact of']) expect(text).not.toContain(name);
  bench.server.clock.set(bench.server.clock.nowMs() + 60_000);
  expect(Buffer.compare((await read()).body, body)).toBe(0);
  await bench.network.get(`/v1/items/${newId()}/condition-note`).expect(404);
}, 60_000);
