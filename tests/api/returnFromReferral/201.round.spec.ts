import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a new round of work begins: earlier steps do not count, and the stay is closed once', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await bench.report(quilt.id, 'rinse').expect(201);
  const sent = await bench.network.post(`/v1/items/${quilt.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The seams open.' }).expect(201);
  expect(sent.body.item.stabilisedAt).not.toBeNull();
  const comeBack = () => bench.network.post(`/v1/items/${quilt.id}/referral-returns`, { to: bench.holding('dirty') });
  const back = await comeBack().expect(201);
  expect(back.body).toMatchObject({ id: sent.body.id, item: { nextStep: 'assess', stabilisedAt: null } });
  expect(back.body.returnedAt).not.toBeNull();
  expect((await comeBack().expect(409)).body.code).toBe('wrong_stage');
  const looked = await bench.assess(quilt.id, { wetState: 'wet' }).expect(201);
  expect(looked.body.nextStep).toBe('rinse');
  expect((await bench.report(quilt.id, 'rinse').expect(201)).body.item.nextStep).toBe('blot');
  const handed = await bench.handBack(household, [quilt.id]).expect(201);
  expect(handed.body.receipt.items[0].done).toEqual(expect.arrayContaining(['rinsed', 'sent to a specialist']));
});
