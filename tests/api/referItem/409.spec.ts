import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const refer = (itemId: string, change: object = {}) => bench.network.post(`/v1/items/${itemId}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The red dye moves.', ...change });

test('an owner\'s no and an owner\'s silence are told apart, and neither lets it go', async () => {
  const silent = await bench.takeIn(await bench.household([{ scope: 'treat', given: true, manner: 'spoken' }]));
  const refused = await bench.takeIn(await bench.household([{ scope: 'refer', given: false, manner: 'written' }]));
  expect((await refer(silent.id).expect(409)).body.detail).toContain('has not been asked');
  expect((await refer(refused.id).expect(409)).body.detail).toContain('has refused');
});

test('what is in work is finished first', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.startAt(quilt.id, 'RINSE');
  const before = await recordOf(bench, quilt.id);
  expect((await refer(quilt.id).expect(409)).body).toMatchObject({ code: 'wrong_stage', stage: 'in-work' });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  const { rows } = await bench.server.admin.query('select count(*)::int as n from referral where item_id = $1', [quilt.id]);
  expect(rows[0].n).toBe(0);
});

test('a specialist of nobody is refused by pointer', async () => {
  const quilt = await bench.takeIn(await bench.household());
  expect((await refer(quilt.id, { specialistId: bench.incident.site() }).expect(422)).body.errors[0].pointer).toBe('#/specialistId');
});
