import { describe, expect, test } from '@jest/globals';
import { criticalHumidityPct, mouldClock, mouldDose, mouldHoursLeft, mouldRatePerH } from '#climate';

describe('critical humidity (Hukka and Viitanen 1999, wood; polynomial as read in two public implementations)', () => {
  test.each([[1, 97.03], [5, 88.02], [10, 82.03], [15, 80.04], [20, 80.04]])('%d C: %d %%', (t, rh) => expect(criticalHumidityPct(t)).toBeCloseTo(rh, 2));
  test('above 20 C it is the 80 % of sensitive materials', () => expect(criticalHumidityPct(28)).toBe(80));
});

describe('4.5 hours to red at water activity 1 (exponents Hukka and Viitanen 1999; 48 h at 22 C is own calibration to the 24-48 h agency rule)', () => {
  test.each([[5, 131.46], [20, 51.21], [22, 48], [30, 38.87]])('%d C: %d h', (surfaceTempC, hours) => {
    expect(mouldHoursLeft(0, { surfaceTempC, waterActivity: 1 })).toBeCloseTo(hours, 2);
  });

  test.each([0, -5, -18])('%d C: stopped', (surfaceTempC) => {
    expect(mouldRatePerH(surfaceTempC, 1)).toBe(0);
    expect(mouldHoursLeft(0.4, { surfaceTempC, waterActivity: 1 })).toBeNull();
    expect(mouldClock(0.4, { surfaceTempC, waterActivity: 1 })).toMatchObject({ paused: true, dose: 0.4, state: 'in-time', hoursLeft: null });
  });
});

describe('the rule of practice: dry or freeze within 24-48 h (US EPA mold course; NPS/AIC sheet via University of Iowa)', () => {
  const warm = { surfaceTempC: 22, waterActivity: 1 };

  test('amber at 24 h and red at 48 h of wetness at 22 C', () => {
    const after = (hours: number) => mouldClock(mouldDose([{ hours, ...warm }]), warm).state;
    expect([after(23.9), after(24.1), after(47.9), after(48.1)]).toEqual(['in-time', 'amber', 'amber', 'red']);
  });

  test('a fresh wet thing at 22 C shows the 24-72 h band that the sources span', () => {
    const band = mouldClock(0, warm).hoursLeftBand;
    expect(band?.shortest).toBeCloseTo(24, 9);
    expect(band?.longest).toBeCloseTo(72, 9);
  });
});
