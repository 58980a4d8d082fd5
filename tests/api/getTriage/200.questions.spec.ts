import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('the triage that is read holds the questions whose answers could change it, its clocks, sources and the standing sentence', async () => {
  const thing = await bench.takeIn(await bench.household(), { materialClass: 'unknown' });
  const { body, headers } = await bench.network.get(`/v1/items/${thing.id}/triage`).expect(200);
  expect(body.askNext[0]).toMatchObject({ observation: 'materialClass', couldBecome: expect.arrayContaining([expect.objectContaining({ disposition: 'treat' })]) });
  expect(body.clocks[0]).toMatchObject({ damage: 'blocking', deadlineAt: '2026-05-09T00:00:00.000Z' });
  expect(body.reasons).toContainEqual(expect.objectContaining({ ruleId: 'mould.clock', source: expect.objectContaining({ mark: 'published' }) }));
  expect(body).toMatchObject({ override: null, ruleBookVersion: expect.any(String), standing: expect.stringContaining('not promises') });
  expect(headers['etag']).toBe('"2"');
});

test('its stored form holds no questions, so that nobody reads yesterday\'s', async () => {
  const thing = await bench.takeIn(await bench.household());
  const { rows } = await bench.server.admin.query(`select result ? 'askNext' as asked from triage_result where item_id = $1`, [thing.id]);
  expect(rows).toEqual([{ asked: false }]);
});
