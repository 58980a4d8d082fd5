import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('an item that comes back is looked at anew', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.network.post(`/v1/items/${quilt.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The red dye moves.' }).expect(201);
  const back = await bench.network.post(`/v1/items/${quilt.id}/referral-returns`, { to: bench.holding('clean') }).expect(201);
  expect(back.body.item).toMatchObject({ stage: 'waiting', nextStep: 'assess', keeper: bench.holding('clean') });
});

test('an item that is not away cannot come back', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const answer = await bench.network.post(`/v1/items/${quilt.id}/referral-returns`, { to: bench.holding('clean') });
  expect([409, 422]).toContain(answer.status);
});
