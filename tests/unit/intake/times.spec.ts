import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { FACTS, notes, refusals, repairs, row } from './tables.js';

/** A flood in the week that the case is about. */
const around = (iso: string, timeZone = 'UTC') => ({ floodAtMs: Date.parse(iso), submittedAtMs: Date.parse(iso) + 40 * 3_600_000, timeZone });

const wetted = (cell: string, facts = FACTS) => {
  const { values } = row({ wettedAt: cell }, facts);
  return values.wettedAtMs === null ? null : new Date(values.wettedAtMs).toISOString();
};

describe('a time is read by its form', () => {
  // The network of FACTS keeps Central European Summer Time, two hours before UTC.
  test.each([
    ['2026-05-08T20:30:00Z', null],
    ['2026-05-08T22:30:00+02:00', null],
    ['2026-05-08t20:30:00.000z', null],
    ['2026-05-08 22:30+0200', 'date_form'],
    ['2026-05-08 22:30', 'date_form'],
    ['2026/5/8 22:30', 'date_form'],
    ['08.05.2026 22:30', 'date_form'],
    ['8.5.2026, 22.30 Uhr', 'date_form'],
    ['08.05.2026 um 22:30', 'date_form'],
    ['8.5.26 22:30', 'date_two_digit_year'],
    ['8 May 2026 10:30 pm', 'date_form'],
    ['8. Mai 2026 22h30', 'date_form'],
    ['May 8, 2026 10:30 p.m.', 'date_form'],
    ['8-May-26 22:30', 'date_two_digit_year'],
  ])('%j', (cell, repair) => {
    const reading = row({ wettedAt: cell });
    expect(refusals(reading)).toEqual([]);
    expect(new Date(reading.values.wettedAtMs ?? 0).toISOString()).toBe('2026-05-08T20:30:00.000Z');
    expect(repairs(reading)).toEqual(repair === null ? [] : [`wettedAt:${repair}`]);
  });

  test('days and months that cannot be swapped are read in both orders', () => {
    const facts = around('2026-11-25T06:00:00Z');
    expect(wetted('25/11/2026 08:00', facts)).toBe('2026-11-25T08:00:00.000Z');
    expect(wetted('11/25/2026 08:00', facts)).toBe('2026-11-25T08:00:00.000Z');
    expect(wetted('25-11-2026 08:00', facts)).toBe('2026-11-25T08:00:00.000Z');
    expect(wetted('05/05/2026 8:00', around('2026-05-05T06:00:00Z'))).toBe('2026-05-05T08:00:00.000Z');
  });

  test.each([
    ['05/08/2026 22:30', 'date_ambiguous'], ['8/5/26', 'date_ambiguous'], ['08-05-2026', 'date_ambiguous'], ['26-05-08', 'date_ambiguous'],
    ['31.04.2026 10:00', 'date_impossible'], ['29.02.2026', 'date_impossible'], ['2026-02-30T10:00:00Z', 'date_impossible'], ['2026-13-01 10:00', 'date_impossible'], ['08.05.2026 24:30', 'date_impossible'],
    ['08.05.2026 22:75', 'date_impossible'], ['8 May 2026 13 pm', 'date_impossible'], ['08.05.2026 22', 'date_impossible'], ['8 Foo 2026', 'date_impossible'],
    ['46150.9375', 'date_serial_number'], ['46150', 'date_serial_number'], ['yesterday', 'date_unreadable'], ['20260508', 'date_unreadable'], ['1778272200000', 'date_unreadable'], ['08.05. 22:30', 'date_unreadable'],
  ])('%j is refused as %s', (cell, code) => {
    expect(refusals(row({ wettedAt: cell }))).toEqual([`wettedAt:${code}`]);
  });

  test('a slashed date is never read as another day than its sender could have meant', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 31 }), fc.integer({ min: 1, max: 31 }), (a, b) => {
        const reading = row({ wettedAt: `${a}/${b}/2026` }, { floodAtMs: Date.UTC(2026, 0, 1), submittedAtMs: Date.UTC(2026, 11, 31, 23), timeZone: 'UTC' });
        const possible = [[a, b], [b, a]].filter(([day = 0, month = 0]) => month <= 12 && new Date(Date.UTC(2026, month - 1, day)).getUTCDate() === day).map(([day = 0, month = 0]) => Date.UTC(2026, month - 1, day));
        const one = new Set(possible).size === 1 && (a > 12 || b > 12 || a === b);
        expect(reading.values.wettedAtMs).toBe(one ? possible[0] : null);
        expect(reading.remarks.refusals.length).toBe(one ? 0 : 1);
      }),
    );
  });
});

describe('the clocks are changed', () => {
  // Central Europe changed to summer time on 29 March 2026 and back on 25 October 2026 (IANA time zone data, Europe/Vienna).
  test('a time that was skipped is refused', () => {
    expect(refusals(row({ wettedAt: '29.03.2026 02:30' }, around('2026-03-29T00:00:00Z', 'Europe/Vienna')))).toEqual(['wettedAt:date_impossible']);
  });

  test('of an hour that came twice the earlier one is taken, and the row says so', () => {
    const reading = row({ wettedAt: '25.10.2026 02:30' }, around('2026-10-25T00:00:00Z', 'Europe/Vienna'));
    expect(new Date(reading.values.wettedAtMs ?? 0).toISOString()).toBe('2026-10-25T00:30:00.000Z');
    expect(repairs(reading)).toEqual(['wettedAt:date_hour_twice']);
  });

  test.each([['03:00', '01:00'], ['01:59', '00:59']])('%s beside the gap is one time', (local, utc) => {
    expect(wetted(`29.03.2026 ${local}`, around('2026-03-29T00:00:00Z', 'Europe/Vienna'))).toBe(`2026-03-29T${utc}:00.000Z`);
  });

  test('a zone with half hours and one across the date line are read right', () => {
    expect(wetted('2026-05-08 22:30', { ...FACTS, timeZone: 'Asia/Kolkata' })).toBe('2026-05-08T17:00:00.000Z');
    expect(wetted('2026-05-08 10:30', { ...FACTS, timeZone: 'Pacific/Honolulu' })).toBe('2026-05-08T20:30:00.000Z');
  });
});

describe('a time is set in the incident', () => {
  test.each([['wettedAt', '2026-05-09T10:06:00Z'], ['arrivedAt', '2026-05-10T08:00:00Z'], ['arrivedAt', '10.05.2026']])('%s %s lies after the file was sent: refused', (column, cell) => {
    expect(refusals(row({ [column]: cell }))).toEqual([`${column}:date_in_future`]);
  });

  test('a clock that runs a few minutes ahead is forgiven, and never leads into the future', () => {
    expect(wetted('2026-05-09T10:04:00Z')).toBe('2026-05-09T10:00:00.000Z');
  });

  test.each([['2026-05-06T17:59:00Z', ['wettedAt:date_before_flood']], ['2026-05-06T18:01:00Z', []]])('%s, around two days before the flood: %j', (cell, expected) => {
    expect(refusals(row({ wettedAt: cell }))).toEqual(expected);
  });

  test('a day without a time is taken as early as it can have been after the flood began', () => {
    // 8 May: the flood began at 18:00 UTC that day. 9 May: its midnight in Vienna.
    for (const [cell, at] of [['08.05.2026', '2026-05-08T18:00:00.000Z'], ['09.05.2026', '2026-05-08T22:00:00.000Z']] as const) {
      const reading = row({ wettedAt: cell });
      expect([wetted(cell), notes(reading)]).toEqual([at, ['wettedAt:time_not_given']]);
    }
  });

  test('an arrival without a time of day is noon, never later than the file and never before the wetting of that day', () => {
    const arrived = (cells: Record<string, string>, submitted = FACTS.submittedAtMs) => new Date(row(cells, { ...FACTS, submittedAtMs: submitted }).values.arrivedAtMs).toISOString();
    expect(arrived({ arrivedAt: '09.05.2026' })).toBe('2026-05-09T10:00:00.000Z');
    expect(arrived({ arrivedAt: '09.05.2026' }, Date.parse('2026-05-09T07:00:00Z'))).toBe('2026-05-09T07:00:00.000Z');
    expect(arrived({ arrivedAt: '08.05.2026', wettedAt: '08.05.2026 23:30' })).toBe('2026-05-08T21:30:00.000Z');
    expect(arrived({})).toBe('2026-05-09T10:00:00.000Z');
  });

  test('a thing that arrived before it got wet is refused', () => {
    expect(refusals(row({ wettedAt: '2026-05-09T02:00:00Z', arrivedAt: '2026-05-09T01:00:00Z' }))).toEqual(['arrivedAt:arrived_before_wetted']);
  });

  test.each(['', 'unknown', '?', 'n/a', '-'])('%j means that nobody knows when it got wet', (cell) => {
    expect([wetted(cell), refusals(row({ wettedAt: cell }))]).toEqual([null, []]);
  });
});
