import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { advanceVtt, ClimateRangeError, lundDoseDays, VTT_CLASSES, VTT_FRESH, vttIndex, vttIndexMax, type ClockSegment } from '#climate';
import { number } from './arbitraries.js';

const segment: fc.Arbitrary<ClockSegment> = fc.record({ hours: number(0, 1000), surfaceTempC: number(-20, 55), waterActivity: number(0.5, 1) });
const vttClass = fc.constantFrom(...VTT_CLASSES);

describe('the mould index', () => {
  test('stays from 0 to 6, whatever happens', () => {
    fc.assert(fc.property(fc.array(segment, { maxLength: 12 }), vttClass, (history, name) => {
      const { index } = vttIndex(history, name, 'as-pine');
      expect(index).toBeGreaterThanOrEqual(0);
      expect(index).toBeLessThanOrEqual(6);
    }));
  });

  test('never passes what the conditions allow', () => {
    fc.assert(fc.property(segment, vttClass, (each, name) => {
      expect(vttIndex([each], name).index).toBeLessThanOrEqual(vttIndexMax(each.surfaceTempC, 100 * each.waterActivity, name) + 1e-9);
    }));
  });

  test('is additive: a stretch cut in two counts the same', () => {
    fc.assert(fc.property(fc.array(segment, { maxLength: 4 }), segment, number(0, 1), vttClass, (before, each, share, name) => {
      const start = vttIndex(before, name, 'as-pine');
      const half = advanceVtt(start, { ...each, hours: each.hours * share }, name, 'as-pine');
      const inTwo = advanceVtt(half, { ...each, hours: each.hours * (1 - share) }, name, 'as-pine');
      expect(inTwo.index).toBeCloseTo(advanceVtt(start, each, name, 'as-pine').index, 6);
    }));
  });

  test('does not grow at or below 0 C, from 50 C, or below the least humidity of the class', () => {
    for (const [surfaceTempC, waterActivity] of [[0, 1], [-10, 1], [50, 1], [25, 0.79]] as const) {
      expect(vttIndex([{ hours: 5000, surfaceTempC, waterActivity }], 'very-sensitive').index).toBe(0);
    }
    expect(vttIndex([{ hours: 5000, surfaceTempC: 25, waterActivity: 0.84 }], 'resistant').index).toBe(0);
  });

  test('falls back no faster in a class of slower decline', () => {
    const dry = { hours: 500, surfaceTempC: 20, waterActivity: 0.4 };
    const after = (decline: 'as-pine' | 'half' | 'quarter' | 'almost-none') => advanceVtt({ index: 3, hoursUnfavourable: 0 }, dry, 'sensitive', decline).index;
    expect(after('as-pine')).toBeLessThan(after('half'));
    expect(after('half')).toBeLessThan(after('quarter'));
    expect(after('quarter')).toBeLessThan(after('almost-none'));
  });

  test.each<[string, () => unknown]>([
    ['an index above 6', () => advanceVtt({ index: 7, hoursUnfavourable: 0 }, { hours: 1, surfaceTempC: 20, waterActivity: 1 }, 'sensitive')],
    ['a class that there is not', () => vttIndex([{ hours: 1, surfaceTempC: 20, waterActivity: 1 }], JSON.parse('"cheese"'))],
    ['hours below 0', () => advanceVtt(VTT_FRESH, { hours: -1, surfaceTempC: 20, waterActivity: 1 }, 'sensitive')],
  ])('%s is refused', (_name, act) => expect(act).toThrow(ClimateRangeError));
});

describe('the second dose', () => {
  test('never falls below 0 and stands still in the cold', () => {
    fc.assert(fc.property(fc.array(segment, { maxLength: 12 }), number(0, 30), (history, start) => {
      expect(lundDoseDays(history, start)).toBeGreaterThanOrEqual(0);
    }));
    expect(lundDoseDays([{ hours: 500, surfaceTempC: -18, waterActivity: 1 }], 4)).toBe(4);
  });
});
