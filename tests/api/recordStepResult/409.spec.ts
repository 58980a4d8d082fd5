import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('an owner\'s no to treatment binds the bath, and nothing is recorded', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await bench.network.post(`/v1/households/${household.id}/consents`, { itemId: quilt.id, scope: 'treat', given: false, manner: 'spoken' }).expect(201);
  const before = await recordOf(bench, quilt.id);
  expect((await bench.report(quilt.id, 'rinse', 'done', { disposition: 'treat' }).expect(409)).body).toMatchObject({ code: 'consent_missing', scope: 'treat' });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test('an owner\'s no to freezing binds the freezer', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await bench.report(quilt.id, 'wrap', 'done', { disposition: 'hold-frozen' }).expect(201);
  await bench.network.post(`/v1/households/${household.id}/consents`, { itemId: quilt.id, scope: 'freeze', given: false, manner: 'spoken' }).expect(201);
  const answer = await bench.report(quilt.id, 'freeze', 'done', { disposition: 'hold-frozen', to: bench.freezer() }).expect(409);
  expect(answer.body).toMatchObject({ code: 'consent_missing', scope: 'freeze' });
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'waiting' });
});

test('what is frozen is thawed first, and what is away comes back first', async () => {
  const household = await bench.household();
  const [frozen, away] = [await bench.testedQuilt(household), await bench.testedQuilt(household)];
  await bench.report(frozen.id, 'wrap').expect(201);
  await bench.report(frozen.id, 'freeze', 'done', { to: bench.freezer() }).expect(201);
  expect((await bench.report(frozen.id, 'rinse').expect(409)).body.detail).toContain('thaw');
  await bench.network.post(`/v1/items/${away.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'Weak seams.' }).expect(201);
  expect((await bench.report(away.id, 'rinse').expect(409)).body.detail).toContain('referral-returns');
});

test('what was handed back takes no more results, and says so', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await bench.handBack(household, [quilt.id]).expect(201);
  const before = await recordOf(bench, quilt.id);
  for (const late of [bench.report(quilt.id, 'rinse'), bench.assess(quilt.id), bench.colourTest(quilt.id, 'no-transfer')]) expect((await late.expect(409)).body.code).toBe('item_terminal');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test("the plan's way does not win over a lead's choice", async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.network.post(`/v1/items/${quilt.id}/disposition-overrides`, { disposition: 'treat', reason: 'Wanted for the wake on Friday.', personId: bench.incident.person('P1') }).expect(201);
  expect((await bench.report(quilt.id, 'wrap', 'done', { disposition: 'hold-frozen' }).expect(422)).body.errors[0]).toMatchObject({ pointer: '#/disposition', code: 'disposition_overruled' });
  expect((await bench.report(quilt.id, 'wrap').expect(409)).body.code).toBe('wrong_stage');
});
