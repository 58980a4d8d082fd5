import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('newest first, decided ones too', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const quote = async (minor: number) => (await bench.network.post(`/v1/items/${quilt.id}/referral-quotes`, { specialistId: bench.incident.specialist('SP1'), amount: { minor, currency: 'USD' }, validUntil: '2026-06-30T00:00:00Z', work: 'Wet cleaning' }).expect(201)).body.id as string;
  const [first, second] = [await quote(10_000), await quote(20_000)];
  await bench.network.post(`/v1/referral-quotes/${first}/decisions`, { decision: 'decline' }).expect(200);
  const { items } = (await bench.network.get(`/v1/items/${quilt.id}/referral-quotes`).expect(200)).body;
  expect(items.map(({ id, state }: { id: string; state: string }) => [id, state])).toEqual([[second, 'open'], [first, 'declined']]);
  await bench.network.get(`/v1/items/${newId()}/referral-quotes`).expect(404);
});
