import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const quote = (itemId: string, change: object = {}) => bench.network.post(`/v1/items/${itemId}/referral-quotes`, { specialistId: bench.incident.specialist('SP1'), amount: { minor: 18_000, currency: 'USD' }, validUntil: '2026-06-30T00:00:00Z', work: 'Wet cleaning, report', ...change });

test('an offer binds nobody: it is open, and the item stays where it is', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  expect((await quote(quilt.id).expect(201)).body).toMatchObject({ state: 'open', basis: null, amount: { minor: 18_000, currency: 'USD' } });
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'waiting' });
});

test('an offer that is over, of nobody, in no currency or about a thing that left is refused', async () => {
  const household = await bench.household();
  const quilt = await bench.assessedQuilt(household);
  expect((await quote(quilt.id, { validUntil: '2026-05-01T00:00:00Z' }).expect(422)).body.errors[0].code).toBe('time_past');
  expect((await quote(quilt.id, { specialistId: newId() }).expect(422)).body.code).toBe('reference_unknown');
  await quote(quilt.id, { amount: { minor: 18_000, currency: 'XYZ' } }).expect(400);
  await bench.handBack(household, [quilt.id]).expect(201);
  expect((await quote(quilt.id).expect(409)).body.code).toBe('item_terminal');
});
