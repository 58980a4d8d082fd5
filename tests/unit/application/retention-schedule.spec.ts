import { describe, expect, test } from '@jest/globals';
import { calibrateRetention, isScheduled, isScheduledHour, nextLookMs } from '#application';

const at = (text: string) => Date.parse(text);
const said = (ms: number) => new Date(ms).toISOString();
const nightly = { scheduleEveryDays: 1, scheduleHour: 3 };

test('is off unless a network has chosen it', () => {
  expect(isScheduled(calibrateRetention())).toBe(false);
  expect(isScheduled(calibrateRetention({ scheduleEveryDays: 7 }))).toBe(true);
  expect(() => calibrateRetention({ scheduleHour: 24 })).toThrow(RangeError);
  expect(() => calibrateRetention({ scheduleEveryDays: 0.5 })).toThrow(RangeError);
});

describe('the next look', () => {
  test.each([
    ['before the hour of the day', 'UTC', '2026-05-09T01:00:00Z', 0, '2026-05-09T03:00:00.000Z'],
    ['in the hour: the next day, or one look would follow itself', 'UTC', '2026-05-09T03:00:00Z', 0, '2026-05-10T03:00:00.000Z'],
    ['after so many days', 'UTC', '2026-05-09T03:20:00Z', 7, '2026-05-16T03:00:00.000Z'],
    ['by the clock on the wall, west of Greenwich', 'America/New_York', '2026-05-09T04:30:00Z', 0, '2026-05-09T07:00:00.000Z'],
    ['by the day on the wall, which is another one there', 'Pacific/Auckland', '2026-05-09T16:00:00Z', 1, '2026-05-10T15:00:00.000Z'],
    ['over the month', 'UTC', '2026-05-31T22:00:00Z', 0, '2026-06-01T03:00:00.000Z'],
    ['in autumn, where the day is longer', 'Europe/Vienna', '2026-10-24T12:00:00Z', 0, '2026-10-25T02:00:00.000Z'],
  ])('%s', (_, zone, now, inDays, next) => expect(said(nextLookMs(nightly, zone, at(now), inDays))).toBe(next));

  test('where the clocks leave the hour out it is that of the day after; where it comes twice, the first', () => {
    expect(said(nextLookMs({ ...nightly, scheduleHour: 2 }, 'America/New_York', at('2026-03-08T05:30:00Z')))).toBe('2026-03-09T06:00:00.000Z');
    expect(said(nextLookMs({ ...nightly, scheduleHour: 1 }, 'America/New_York', at('2026-11-01T04:30:00Z')))).toBe('2026-11-01T05:00:00.000Z');
  });

  test('always lies ahead, in its hour, and not more than two days and the days that were asked for away', () => {
    for (const zone of ['UTC', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Apia']) {
      for (let now = at('2026-01-01T00:10:00Z'); now < at('2027-01-01T00:00:00Z'); now += 17.3 * 3_600_000) {
        for (const scheduleHour of [0, 2, 23]) {
          const next = nextLookMs({ ...nightly, scheduleHour }, zone, now);
          expect([zone, said(now), next > now, isScheduledHour({ ...nightly, scheduleHour }, zone, next), next - now <= 49 * 3_600_000]).toEqual([zone, said(now), true, true, true]);
        }
      }
    }
  });
});
