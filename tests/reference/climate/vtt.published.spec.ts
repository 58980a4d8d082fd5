import { describe, expect, test } from '@jest/globals';
import { advanceVtt, criticalHumidityPct, LUND_CRITICAL_DAYS, lundDoseDays, mouldHoursLeft, VTT_CLASSES, VTT_CLASS_TABLE, VTT_DECLINE, vttIndex, vttIndexMax, vttWeeksToFirstGrowth, vttWeeksToVisibleGrowth, type ClockSegment, type VttClass } from '#climate';

const steady = (surfaceTempC: number, relativeHumidityPct: number, days: number): ClockSegment => ({ hours: 24 * days, surfaceTempC, waterActivity: relativeHumidityPct / 100 });

// Hukka and Viitanen, Wood Science and Technology 33 (1999), and the classes of Ojanen, Viitanen, Peuhkuri and others (2010), as read in two
// independent public implementations; no published table of M over time was readable. The values are computed in the project's
// guidance (physics 4.1) three ways that agree to 0.0005: exact solution, Euler steps, an ODE library.
describe('the VTT index, computed values', () => {
  test.each<[number, number, number, number, number]>([
    [20, 97, 14, 1.6962, 5.5039], [22, 100, 7, 1.1966, 6], [22, 100, 14, 3.3922, 6], [30, 95, 14, 1.6589, 5.125],
  ])('very sensitive, %d C, %d %%, %d days: %d of at most %d', (t, rh, days, index, max) => {
    expect(Math.abs(vttIndex([steady(t, rh, days)], 'very-sensitive').index - index)).toBeLessThan(0.0005);
    expect(vttIndexMax(t, rh, 'very-sensitive')).toBeCloseTo(max, 3);
  });

  test('22 C and saturation: 6.37 days (153 h) to index 1 and 13.21 days to index 3 on pine', () => {
    expect(7 * vttWeeksToFirstGrowth(22, 100)).toBeCloseTo(6.37, 2);
    expect(24 * 7 * vttWeeksToFirstGrowth(22, 100)).toBeCloseTo(153, 0);
    expect(7 * vttWeeksToVisibleGrowth(22, 100)).toBeCloseTo(13.21, 2);
  });

  test('the clock of the rule of practice runs 3.19 times faster than this class, and 1.5 times faster than the second model', () => {
    const clockH = mouldHoursLeft(0, { surfaceTempC: 22, waterActivity: 1 })!;
    expect((24 * 7 * vttWeeksToFirstGrowth(22, 100)) / clockH).toBeCloseTo(3.19, 2);
    expect((24 * LUND_CRITICAL_DAYS.value) / lundDoseDays([steady(22, 100, 1)]) / clockH).toBeCloseTo(1.5, 1);
  });

  test('the exact solution agrees with an independent integrator for every class, growing and falling back', () => {
    const history = [steady(18, 98, 9), steady(18, 55, 3), steady(25, 99, 20), steady(-5, 99, 2), steady(12, 96, 30)];
    for (const vttClass of VTT_CLASSES) {
      expect(Math.abs(vttIndex(history, vttClass, 'as-pine').index - integrated(history, vttClass))).toBeLessThan(2e-4);
    }
  });
});

describe('as printed', () => {
  test('the table of the classes', () => {
    const rows = VTT_CLASSES.map((name) => { const { growthBelow1, growthFrom1, a, b, c, humidityMinPct } = VTT_CLASS_TABLE[name]; return [growthBelow1, growthFrom1, a, b, c, humidityMinPct]; });
    expect(rows).toEqual([[1, 2, 1, 7, 2, 80], [0.578, 0.386, 0.3, 6, 1, 80], [0.072, 0.097, 0, 5, 1.5, 85], [0.033, 0.014, 0, 3, 1, 85]]);
  });

  test('pine falls by 0.032 a day for six hours, not at all to the 24th hour, then by 0.016 a day', () => {
    const dry = (hours: number) => advanceVtt({ index: 2, hoursUnfavourable: 0 }, { hours, surfaceTempC: 20, waterActivity: 0.5 }, 'very-sensitive', 'as-pine').index;
    expect([6, 24, 48, 24 * 11].map((hours) => Number(dry(hours).toFixed(6)))).toEqual([1.992, 1.992, 1.976, 1.832]);
  });

  test('how much of it a class shows is from memory, and says so', () => {
    expect(Object.values(VTT_DECLINE).map(({ value, mark }) => [value, mark])).toEqual([[1, 'from-memory'], [0.5, 'from-memory'], [0.25, 'from-memory'], [0.1, 'from-memory']]);
  });
});

// Isaksson, Thelandersson and others, Building and Environment 65 (2013); terms as read in a public implementation, 17 days from memory.
describe('the second dose model', () => {
  test('22 C and saturation: 3.08 days (74 h) to its critical dose (computed)', () => {
    const daysNeeded = LUND_CRITICAL_DAYS.value / lundDoseDays([steady(22, 100, 1)]);
    expect(daysNeeded).toBeCloseTo(3.08, 2);
    expect(24 * daysNeeded).toBeCloseTo(74, 0);
    expect(LUND_CRITICAL_DAYS.mark).toBe('from-memory');
  });

  test('one day at 20 C and 90 % is one day of dose; at 75 % and at 60 % the branches meet', () => {
    expect(lundDoseDays([steady(20, 90, 1)])).toBeCloseTo(1, 12);
    expect(lundDoseDays([steady(20, 75, 1)], 5) - 5).toBeCloseTo(lundDoseDays([steady(20, 74.999, 1)], 5) - 5, 1);
    expect(lundDoseDays([steady(20, 60, 1)], 5) - 5).toBeCloseTo(-0.5, 12);
    expect(lundDoseDays([steady(20, 59, 1)], 5) - 5).toBeCloseTo(-0.5, 12);
  });

  test('has the shape of the clock: a power of temperature and a steep power of humidity', () => {
    const ratio = (of: (t: number, rh: number) => number) => [of(30, 100) / of(15, 100), of(20, 100) / of(20, 90)];
    const [warmLund, dampLund] = ratio((t, rh) => lundDoseDays([steady(t, rh, 1)]));
    const [warmClock, dampClock] = ratio((t, rh) => 1 / mouldHoursLeft(0, { surfaceTempC: t, waterActivity: rh / 100 })!);
    expect(Math.abs(warmLund! / warmClock! - 1)).toBeLessThan(0.05);
    expect(Math.abs(dampLund! / dampClock! - 1)).toBeLessThan(0.2);
  });
});

/** The differential equation as printed, by classical Runge-Kutta steps of two minutes; written apart from the library on purpose. */
function integrated(history: readonly ClockSegment[], vttClass: VttClass): number {
  const { growthBelow1, growthFrom1, a, b, c, humidityMinPct } = VTT_CLASS_TABLE[vttClass];
  const step = 1 / 720;
  let m = 0;
  let dryDays = 0;
  for (const { hours, surfaceTempC: t, waterActivity } of history) {
    const rh = 100 * waterActivity;
    const critical = t > 20 ? humidityMinPct : Math.max(humidityMinPct, criticalHumidityPct(t));
    const grows = t > 0 && t < 50 && rh >= critical;
    const r = (critical - rh) / (critical - 100);
    const max = Math.max(0, a + b * r - c * r * r);
    const days = 7 * Math.exp(-0.68 * Math.log(Math.max(t, 0.1)) - 13.9 * Math.log(rh) + 66.02);
    const slope = (index: number): number => ((index < 1 ? growthBelow1 : growthFrom1) * Math.max(0, 1 - Math.exp(2.3 * (index - max)))) / days;
    for (let n = 0; n < Math.round((hours / 24) / step); n += 1) {
      if (grows) {
        const k1 = slope(m);
        const k2 = slope(m + (step * k1) / 2);
        const k3 = slope(m + (step * k2) / 2);
        m += (step * (k1 + 2 * k2 + 2 * k3 + slope(m + step * k3))) / 6;
      } else {
        const sinceH = (dryDays + (n + 0.5) * step) * 24;
        m = Math.max(0, m - step * (sinceH < 6 ? 0.032 : sinceH < 24 ? 0 : 0.016));
      }
    }
    dryDays = grows ? 0 : dryDays + hours / 24;
  }
  return m;
}
