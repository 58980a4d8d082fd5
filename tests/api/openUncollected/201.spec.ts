import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const open = (householdId: string, change: object = {}) => bench.network.post(`/v1/households/${householdId}/uncollected`, { deciderId: bench.incident.person('P1'), ...change });

test('two reminders and a decision by date, one path at a time, and none for a household that has everything back', async () => {
  const household = await bench.household();
  expect((await open(household.id).expect(422)).body.code).toBe('command_refused');
  const quilt = await bench.testedQuilt(household);
  const { body } = await open(household.id).expect(201);
  expect(body).toMatchObject({ openedAt: '2026-05-09T07:00:00.000Z', firstReminderAt: '2026-05-16T07:00:00.000Z', secondReminderAt: '2026-05-30T07:00:00.000Z', decideAt: '2026-06-20T07:00:00.000Z', due: null });
  expect((await open(household.id).expect(409)).body).toMatchObject({ code: 'already_exists', uncollectedId: body.id });
  await bench.handBack(household, [quilt.id]).expect(201);
  const { items } = (await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected`).expect(200)).body;
  expect(items.find(({ id }: { id: string }) => id === body.id)).toMatchObject({ state: 'collected', due: null });
});

test('dates that do not follow each other are refused', async () => {
  const household = await bench.household();
  await open(household.id, { days: { firstReminder: 20, secondReminder: 10, decide: 30 } }).expect(400);
});
