import { describe, expect, test } from '@jest/globals';
import { implicitHumidityStep, itemsAcceptable, linearRoomHumidity, roomSteadyState, simulateRoom, sustainedRemoval, ventilationAdvice } from '#climate';
import { baseRoom, cottonThing, forty, noMachines } from './worked-room.js';

// All expected values: physics guidance sections 3.1-3.7, computed twice there (implicit scheme and an independent
// adaptive ODE solver). No published room measurement was found; these fix the arithmetic, not the world.

describe('3.1 linear room: the exact solution and the implicit step', () => {
  const linear = { dryAirKg: 72, airChangesPerH: 0.5, outdoorHumidityRatio: 0.006, sourceKgPerH: 200, sourceHumidityRatio: 0.011, removalKgPerH: 0.3, startHumidityRatio: 0.006, hours: 1 };

  test('steady 0.008966, time constant 0.3051 h, 0.0088542 after an hour', () => {
    const exact = linearRoomHumidity(linear);
    expect(exact.steadyHumidityRatio).toBeCloseTo(0.008966, 6);
    expect(exact.timeConstantH).toBeCloseTo(0.3051, 4);
    expect(exact.humidityRatio).toBeCloseTo(0.0088542, 7);
  });

  test('backward Euler at 15 s gives 0.0088517', () => {
    const dt = 15 / 3600;
    let w = 0.006;
    for (let i = 0; i < 240; i += 1) {
      w = implicitHumidityStep({
        startHumidityRatio: w,
        dryAirKg: 72,
        saturationHumidityRatio: 0.0147,
        gainKg: (next) => dt * (200 * (0.011 - next) - 36 * (next - 0.006) - 0.3),
      });
    }
    expect(w).toBeCloseTo(0.0088517, 7);
  });
});

describe('3.5 ventilation: water removed per 100 m3/h of outdoor air', () => {
  const indoor = { airTempC: 20, relativeHumidityPct: 60 };

  test.each([
    [12, 80, 1.77, 0.21, 'ventilate'],
    [5, 90, 3.88, 0.46, 'ventilate'],
    [20, 80, -2.97, -0.352, 'keep-closed'],
  ])('%d C, %d %% outdoors', (airTempC, relativeHumidityPct, gramsPerKg, kgPer100, advice) => {
    const outcome = ventilationAdvice(indoor, { airTempC, relativeHumidityPct });
    expect(outcome.dryingPotentialKgPerKg * 1000).toBeCloseTo(gramsPerKg, 2);
    expect(outcome.removalKgPer1000M3 / 10).toBeCloseTo(kgPer100, 3);
    expect(outcome.advice).toBe(advice);
  });
});

describe('3.6 worked room', () => {
  test('A: base settles at 77.23 % with 1.9237 = 0.1534 + 1.7702 kg/h', () => {
    const steady = roomSteadyState(baseRoom, [forty]);
    expect(steady.relativeHumidityPct).toBeCloseTo(77.23, 2);
    expect(steady.humidityRatio).toBeCloseTo(0.011288, 6);
    expect(steady.evaporationKgPerH).toBeCloseTo(1.9237, 4);
    expect(steady.outdoorAirKgPerH).toBeCloseTo(0.1534, 4);
    expect(steady.dehumidifiersKgPerH).toBeCloseTo(1.7702, 4);
    expect(steady.condensationKgPerH).toBe(0);
  });

  test('A: dry after 10.215 h, dose 0.151 (fine steps); 0.02 h and 0.003 off at most at 15 min steps', () => {
    const fine = simulateRoom(baseRoom, [forty], { hours: 24, stepH: 0.01 });
    expect(fine.allDryAtH).toBeCloseTo(10.215, 3);
    expect(fine.groups[0]!.doseGained).toBeCloseTo(0.151, 3);
    const coarse = simulateRoom(baseRoom, [forty], { hours: 24 });
    expect(Math.abs(coarse.allDryAtH! - 10.215)).toBeLessThan(0.02);
    expect(Math.abs(coarse.groups[0]!.doseGained - 0.151)).toBeLessThan(0.003);
  });

  test.each([[3, 0.705, 0.053], [6, 0.4164, 0.1062]])('A at %d h: 77.23 %%, X %d, dose %d', (hours, x, dose) => {
    const result = simulateRoom(baseRoom, [forty], { hours });
    expect(result.endRelativeHumidityPct).toBeCloseTo(77.23, 2);
    expect(Math.abs(result.groups[0]!.endX - x)).toBeLessThan(2e-4);
    expect(Math.abs(result.groups[0]!.doseGained - dose)).toBeLessThan(3e-4);
  });

  test('B: without a dehumidifier 96.84 %, 0.2563 kg/h, 75.36 h and mould before dry (dose 1.209)', () => {
    const steady = roomSteadyState(noMachines, [forty]);
    expect(steady.relativeHumidityPct).toBeCloseTo(96.84, 2);
    expect(steady.evaporationKgPerH).toBeCloseTo(0.2563, 4);
    expect(steady.outdoorAirKgPerH).toBeCloseTo(0.2563, 4);
    const result = simulateRoom(noMachines, [forty], { hours: 120 });
    expect(Math.abs(result.allDryAtH! - 75.36)).toBeLessThan(0.05);
    expect(Math.abs(result.groups[0]!.doseGained - 1.209)).toBeLessThan(0.004);
    expect(result.groups[0]!.endDose).toBeGreaterThan(1);
  });

  test('D: twenty things peak at 65.6 %, dry in 6.76 h, dose 0.093', () => {
    const result = simulateRoom(baseRoom, [{ ...forty, count: 20 }], { hours: 24 });
    expect(result.peakRelativeHumidityPct).toBeCloseTo(65.6, 1);
    expect(result.allDryAtH).toBeCloseTo(6.76, 2);
    expect(Math.abs(result.groups[0]!.doseGained - 0.093)).toBeLessThan(0.003);
  });

  test('C, the lesson: a fan without more dehumidification lifts the room to about 90 % and saves about one hour', () => {
    const fan = simulateRoom({ ...baseRoom, airSpeedMPerS: 1 }, [{ ...forty, airReach: 'fan-across' }], { hours: 24 });
    expect(Math.abs(fan.peakRelativeHumidityPct - 90)).toBeLessThan(1);
    expect(Math.abs(10.215 - fan.allDryAtH! - 1)).toBeLessThan(0.5);
  });

  test('hours to dry change little with the step: 1, 0.25 and 0.05 h against 10.215 h', () => {
    for (const stepH of [1, 0.25, 0.05]) {
      expect(Math.abs(simulateRoom(baseRoom, [forty], { hours: 24, stepH }).allDryAtH! - 10.215)).toBeLessThan(0.06);
    }
  });
});

describe('3.7 how much can the room accept, dry within 72 h', () => {
  test('A with the 75 % cap: 34 things, 15.6 kg of water, 9.25 h', () => {
    const answer = itemsAcceptable({ room: baseRoom, item: cottonThing, capPct: 75 });
    expect(answer.items).toBe(34);
    expect(answer.waterKg).toBeCloseTo(15.6, 1);
    expect(answer.allDryAtH).toBeCloseTo(9.25, 2);
    expect(answer.limitedBy).toBe('humidity-cap');
  });

  test('A with the mould limit only: 270 things, 123.5 kg, 59.5 h at 96 % (at 3 minute steps; at 15 ours takes the wetter end of each step and one thing less)', () => {
    const fine = itemsAcceptable({ room: baseRoom, item: cottonThing, capPct: null, promise: false, stepH: 0.05, itemsMax: 300 });
    expect(fine.items).toBe(270);
    expect(fine.waterKg).toBeCloseTo(123.5, 1);
    expect(Math.abs(fine.allDryAtH! - 59.5)).toBeLessThan(0.3);
    expect(fine.peakRelativeHumidityPct).toBeCloseTo(96, 0);
    expect(fine.limitedBy).toBe('mould-clock');
    expect(itemsAcceptable({ room: baseRoom, item: cottonThing, capPct: null, promise: false }).items).toBe(269);
  });

  test('B: 32 things by the mould limit, 2 things and 0.9 kg with the cap', () => {
    const byMould = itemsAcceptable({ room: noMachines, item: cottonThing, capPct: null });
    expect(byMould.items).toBe(32);
    expect(byMould.waterKg).toBeCloseTo(14.6, 1);
    const byCap = itemsAcceptable({ room: noMachines, item: cottonThing, capPct: 75 });
    expect(byCap.items).toBe(2);
    expect(byCap.waterKg).toBeCloseTo(0.9, 1);
  });

  test('the quick screen at 75 % is rated machines (capped at the label) plus outdoor air, a little above the 1.6-1.7 kg/h of whole runs', () => {
    const screen = sustainedRemoval({ ...baseRoom, capPct: 75 });
    expect(screen.dehumidifiersKgPerH).toBeCloseTo(40 / 24, 9);
    expect(screen.outdoorAirKgPerH).toBeCloseTo(0.1417, 4);
    const run = itemsAcceptable({ room: baseRoom, item: cottonThing, capPct: 75 });
    const throughput = run.waterKg / run.allDryAtH!;
    expect(throughput).toBeGreaterThan(1.6);
    expect(throughput).toBeLessThan(1.7);
    expect(screen.totalKgPerH).toBeGreaterThan(throughput);
    expect(screen.totalKgPerH).toBeLessThan(throughput * 1.15);
  });
});
