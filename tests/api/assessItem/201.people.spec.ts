import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const listed = async (itemId: string) => (await bench.network.get(`/v1/incidents/${bench.incident.id}/unsuited-steps?limit=200`).expect(200)).body.items.filter((row: { itemId: string }) => row.itemId === itemId);
const override = () => ({ personId: bench.incident.person('P1'), reason: 'She was shown how this morning.' });

test('a look by the wrong person is recorded when a lead answers for it, and stays on the list', async () => {
  const quilt = await bench.takeIn(await bench.household());
  await bench.assess(quilt.id, { personId: bench.incident.person('P2'), override: override() }).expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ nextStep: 'colour-test' });
  expect(await listed(quilt.id)).toMatchObject([{ step: 'assess', outcome: 'done', stepResultId: expect.any(String), override: override(), people: [{ personId: bench.incident.person('P2'), reasons: [{ code: 'skill_missing' }] }] }]);
});

test('mould that came to light is taken from everybody at once, and listed without a lead', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const { body } = await bench.assess(quilt.id, { personId: bench.incident.person('P2'), mould: 'active' }).expect(201);
  expect(body.observed.mould).toBe('active');
  expect(await listed(quilt.id)).toMatchObject([{ step: 'assess', outcome: 'mould-found', override: null, people: [{ reasons: [{ code: 'skill_missing' }] }] }]);
});

test('an override that is not needed changes nothing and lists nothing', async () => {
  const quilt = await bench.takeIn(await bench.household());
  await bench.assess(quilt.id, { override: override() }).expect(201);
  expect(await listed(quilt.id)).toEqual([]);
});

test('the hours that the network has set count', async () => {
  const quilt = await bench.takeIn(await bench.household());
  bench.server.clock.set(Date.parse('2026-05-09T18:00:00Z'));
  const { headers } = await bench.network.get('/v1/calibration').expect(200);
  await bench.network.put('/v1/calibration/people/consecutiveHoursMax', { value: 10, reason: 'Our law says so.', personId: bench.incident.person('P1') }, { 'if-match': headers['etag'] ?? '' }).expect(200);
  const { body } = await bench.assess(quilt.id).expect(422);
  expect(body.errors.map(({ code }: { code: string }) => code)).toEqual(['hours_too_long']);
  expect(body.detail).toContain('11.0 hours since the last break of 8 hours. Nobody works more than 10');
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
});
