import { expect, test } from '@jest/globals';
import { dueOf } from '#application';

const path = { state: 'open' as const, reminders: 0, firstReminderAtMs: 10, secondReminderAtMs: 20, decideAtMs: 30 };

test('what is due follows the dates, and a reminder that was made is due no longer; the decision waits for no reminder', () => {
  const due = (nowMs: number, reminders: number) => dueOf({ ...path, reminders }, nowMs);
  expect([9, 10, 19, 20, 29, 30].map((nowMs) => due(nowMs, 0))).toEqual([null, 'first-reminder', 'first-reminder', 'second-reminder', 'second-reminder', 'decision']);
  expect([10, 20, 29, 30].map((nowMs) => due(nowMs, 1))).toEqual([null, 'second-reminder', 'second-reminder', 'decision']);
  expect([20, 30].map((nowMs) => due(nowMs, 2))).toEqual([null, 'decision']);
  expect(dueOf({ ...path, state: 'collected' }, 99)).toBeNull();
});
