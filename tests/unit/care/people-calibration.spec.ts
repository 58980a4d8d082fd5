import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { calibratePeople, DEFAULT_PEOPLE_CALIBRATION, PEOPLE_CALIBRATION, PeopleCalibrationError, type PeopleCalibrationKey } from '#care';

const KEYS = Object.keys(PEOPLE_CALIBRATION) as PeopleCalibrationKey[];
const inside = (key: PeopleCalibrationKey) => {
  const { min, max, whole } = PEOPLE_CALIBRATION[key];
  return whole ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true });
};

test('every default lies within its own limits, and is marked as ours with a reason', () => {
  for (const key of KEYS) {
    const { value, min, max, mark, why } = PEOPLE_CALIBRATION[key];
    expect([key, value >= min && value <= max, mark, why.length > 40]).toEqual([key, true, 'own-calibration', true]);
  }
  expect(DEFAULT_PEOPLE_CALIBRATION).toEqual({ consecutiveHoursMax: 13, restHours: 8, heatHoldsHours: 6, fitForRequiredMask: true });
});

test('whatever is within the limits is taken as it is, and the rest stays at its default', () => {
  fc.assert(
    fc.property(fc.constantFrom(...KEYS).chain((key) => fc.tuple(fc.constant(key), inside(key))), ([key, value]) => {
      const calibration = calibratePeople({ [key]: value });
      expect(Number(calibration[key])).toBe(value);
      for (const other of KEYS.filter((one) => one !== key)) expect(calibration[other]).toBe(DEFAULT_PEOPLE_CALIBRATION[other]);
    }),
  );
});

test('whatever is outside the limits, no number, or a half where only whole numbers make sense is refused by name', () => {
  const outside = (key: PeopleCalibrationKey) => fc.oneof(fc.double().filter((value) => !(value >= PEOPLE_CALIBRATION[key].min && value <= PEOPLE_CALIBRATION[key].max)), fc.constant(NaN));
  fc.assert(
    fc.property(fc.constantFrom(...KEYS).chain((key) => fc.tuple(fc.constant(key), outside(key))), ([key, value]) => {
      expect(() => calibratePeople({ [key]: value })).toThrow(PeopleCalibrationError);
      expect(() => calibratePeople({ [key]: value })).toThrow(key);
    }),
  );
  expect(() => calibratePeople({ fitForRequiredMask: 0.5 })).toThrow('a whole number from 0 to 1');
  expect(() => calibratePeople({ constructor: 1 } as object)).toThrow('constructor is no number');
});
