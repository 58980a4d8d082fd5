import { expect, test } from '@jest/globals';
import { changesPlan } from '#application';

// Thresholds: own calibration (room-change.ts).
const planned = { airTempC: 21, relativeHumidityPct: 70 };

test('air that stays near what was planned with changes nothing', () => {
  expect(changesPlan(planned, planned, 75)).toBe(false);
  expect(changesPlan(planned, { airTempC: 22.9, relativeHumidityPct: 74.9 }, 75)).toBe(false);
  expect(changesPlan(planned, { airTempC: 19.1, relativeHumidityPct: 65.1 }, 75)).toBe(false);
});

test('crossing the cap counts however small the step is, in both directions; the cap itself is still allowed', () => {
  expect(changesPlan({ airTempC: 21, relativeHumidityPct: 75 }, { airTempC: 21, relativeHumidityPct: 75.1 }, 75)).toBe(true);
  expect(changesPlan({ airTempC: 21, relativeHumidityPct: 75.1 }, { airTempC: 21, relativeHumidityPct: 75 }, 75)).toBe(true);
  expect(changesPlan({ airTempC: 21, relativeHumidityPct: 74.9 }, { airTempC: 21, relativeHumidityPct: 75 }, 75)).toBe(false);
});

test('five points or two degrees count on the same side of the cap', () => {
  expect(changesPlan(planned, { airTempC: 21, relativeHumidityPct: 65 }, 75)).toBe(true);
  expect(changesPlan(planned, { airTempC: 23, relativeHumidityPct: 70 }, 75)).toBe(true);
  expect(changesPlan({ airTempC: 21, relativeHumidityPct: 80 }, { airTempC: 21, relativeHumidityPct: 90 }, 75)).toBe(true);
});
