import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { ceilingX, weighingDoubts, weighingFaults, type KnownWeighing, type WeighedThing } from '#climate';

// All limits are own calibration; the towel of 0.5 kg/m2 and 4 mm has a pore ceiling of 7.34 (own formula, tests/reference/climate).

const NOW = Date.parse('2026-05-09T12:00:00Z');
const HOUR = 3_600_000;
const garment: WeighedThing = { dryMassKg: 0.5, build: 'thin', takenInAtMs: NOW - 10 * HOUR };
const codes = (massKg: number, weighedAtMs = NOW - HOUR) => weighingFaults({ massKg, weighedAtMs }, garment, NOW).map(({ code }) => code);

describe('a weight that cannot be', () => {
  test.each([
    [0.5, []], [4.5, []], [0.125, []], [13.5, []],
    [13.6, ['too_heavy']], [0.12, ['too_light']], [0, ['nothing_left']], [-0.2, ['nothing_left']],
    [740, ['grams']], [1_900, ['grams']], [75, ['too_heavy']],
  ])('%d kg of a 0.5 kg garment is %j', (massKg, expected) => {
    expect(codes(massKg)).toEqual(expected);
  });

  test('grams are told as kilograms', () => {
    expect(weighingFaults({ massKg: 740, weighedAtMs: NOW }, garment, NOW)).toEqual([{ code: 'grams', inKg: 0.74 }]);
  });

  test('the future and the time before it was taken in are refused, five minutes of a wrong clock are not', () => {
    expect(codes(1, NOW + 5 * 60_000)).toEqual([]);
    expect(codes(1, NOW + 6 * 60_000)).toEqual(['in_future']);
    expect(codes(1, garment.takenInAtMs - 5 * 60_000)).toEqual([]);
    expect(codes(1, garment.takenInAtMs - 6 * 60_000)).toEqual(['before_taken_in']);
    expect(codes(99, NOW + HOUR)).toEqual(['in_future', 'too_heavy']);
  });

  test('what is not known to be thin may hold as much as what holds most', () => {
    expect(ceilingX('unknown')).toBe(Math.max(ceilingX('thin'), ceilingX('padded'), ceilingX('paper')));
  });
});

const weighed = (hour: number, massKg: number, resolutionKg = 0.1): KnownWeighing => ({ massKg, resolutionKg, weighedAtMs: NOW + hour * HOUR });

describe('a weight that is asked about', () => {
  test('one that went up by more than both scales can be off by', () => {
    expect(weighingDoubts([weighed(0, 2), weighed(1, 1.6), weighed(2, 1.8), weighed(3, 2.01)], garment, [])).toEqual([null, null, null, 'heavier-than-before']);
    expect(weighingDoubts([weighed(0, 2, 0.01), weighed(1, 2.03, 0.01)], garment, [])).toEqual([null, 'heavier-than-before']);
  });

  test('not one that was wetted on purpose in between', () => {
    const rinsed = [NOW + 0.5 * HOUR];
    expect(weighingDoubts([weighed(0, 1), weighed(1, 3)], garment, rinsed)).toEqual([null, null]);
    expect(weighingDoubts([weighed(0, 1), weighed(0.4, 3)], garment, rinsed)).toEqual([null, 'heavier-than-before']);
  });

  test('one that such things do not have, without refusing it: classes are rough', () => {
    expect(weighingDoubts([weighed(0, 4.6)], garment, [])).toEqual(['heavier-than-such-things']);
    expect(weighingDoubts([weighed(0, 0.37)], garment, [])).toEqual(['lighter-than-such-things']);
  });

  test('never one of a thing that only dries between its limits', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0.4, max: 4.4, noNaN: true }), { minLength: 1, maxLength: 12 }), (masses) => {
      const drying = [...masses].sort((a, b) => b - a).map((massKg, hour) => weighed(hour, massKg));
      expect(weighingDoubts(drying, garment, []).every((doubt) => doubt === null)).toBe(true);
    }));
  });
});
