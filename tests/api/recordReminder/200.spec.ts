import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a reminder is due no longer once it is recorded; there are two', async () => {
  const household = await bench.household();
  await bench.takeIn(household);
  const { id } = (await bench.network.post(`/v1/households/${household.id}/uncollected`, { deciderId: bench.incident.person('P1'), readyAt: '2026-05-01T00:00:00Z' }).expect(201)).body;
  const remind = () => bench.network.post(`/v1/uncollected/${id}/reminders`, {});
  expect((await remind().expect(200)).body).toMatchObject({ reminders: 1, remindedAt: '2026-05-09T07:00:00.000Z', due: null });
  expect((await remind().expect(200)).body).toMatchObject({ reminders: 2, version: 3 });
  expect((await remind().expect(422)).body.code).toBe('command_refused');
});
