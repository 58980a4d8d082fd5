import { describe, expect, test } from '@jest/globals';
import { simulateRoom, type SimulatedRoom, type WetGroup } from '#climate';
import { integrate, type IndependentRoom } from './independent-room.js';

const base: IndependentRoom = {
  volumeM3: 60, airTempC: 20, startPct: 60, ach: 0.5, outdoorTempC: 12, outdoorPct: 80, litresPerDay: 40, speedMPerS: 0.1,
  goods: [{ count: 40, dryKg: 0.5, areaM2: 3, kE: 0.65, x0: 1 }],
};

/** The same room for the library. */
function ours(room: IndependentRoom): { room: SimulatedRoom; groups: WetGroup[] } {
  return {
    room: {
      volumeM3: room.volumeM3, airTempC: room.airTempC, startRelativeHumidityPct: room.startPct, airChangesPerH: room.ach, outdoorTempC: room.outdoorTempC, outdoorRelativeHumidityPct: room.outdoorPct,
      dehumidifiers: room.litresPerDay === 0 ? [] : [{ kind: 'refrigerant', ratedLitresPerDay: room.litresPerDay, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 }], airSpeedMPerS: room.speedMPerS,
    },
    groups: room.goods.map((goods) => ({ count: goods.count, dryMassKg: goods.dryKg, exposedAreaM2: goods.areaM2, material: 'cotton', startX: goods.x0, targetX: 0.085, arrangementFactor: goods.kE })),
  };
}

const cases: [string, Partial<IndependentRoom>, number][] = [
  ['A: base', {}, 11],
  ['B: no dehumidifier', { litresPerDay: 0 }, 77],
  ['C: a fan', { speedMPerS: 1, goods: [{ ...base.goods[0]!, kE: 1 }] }, 11],
  ['D: twenty things', { goods: [{ ...base.goods[0]!, count: 20 }] }, 8],
  ['humid weather, windows open', { outdoorTempC: 22, outdoorPct: 80, ach: 2, airTempC: 23 }, 15],
  ['two kinds, small room, damp at the start', { volumeM3: 30, startPct: 85, goods: [{ count: 12, dryKg: 0.4, areaM2: 2, kE: 0.65, x0: 1.4 }, { count: 6, dryKg: 1.4, areaM2: 6, kE: 0.35, x0: 0.8 }] }, 21],
];

describe('an independent integrator (npm odex, another method, on npm psychrolib) agrees with the room scheme within 0.5 %', () => {
  test.each(cases)('%s: hours to dry, moisture and highest humidity (after the first hour) at 15 minute steps; the humidity of every quarter hour at 1 minute steps', (_name, change, hours) => {
    const room = { ...base, ...change };
    const theirs = integrate(room, hours);
    const { room: input, groups } = ours(room);
    const run = simulateRoom(input, groups, { hours });
    groups.forEach((_, g) => {
      expect(run.groups[g]!.dryAtH).not.toBeNull();
      expect(Math.abs(run.groups[g]!.dryAtH! / theirs.dryAtH![g]! - 1)).toBeLessThan(0.005);
    });
    const highest = (all: readonly { atH: number; pct: number }[]): number => Math.max(...all.filter((one) => one.atH >= 1).map((one) => one.pct));
    expect(Math.abs(highest(run.steps.map((one) => ({ atH: one.atH, pct: one.relativeHumidityPct }))) / highest(theirs.map((one) => ({ atH: one.atH, pct: one.rhPct }))) - 1)).toBeLessThan(0.005);
    const fine = simulateRoom(input, groups, { hours, stepH: 1 / 60 });
    for (const same of theirs) {
      const [coarse, exact] = [run, fine].map(({ steps }) => steps.find((one) => Math.abs(one.atH - same.atH) < 1e-6));
      if (coarse === undefined || exact === undefined) continue;
      // Share of the water there was at the start.
      groups.forEach((group, g) => expect(Math.abs(coarse.moistureX[g]! - same.x[g]!) / group.startX).toBeLessThan(0.005));
      if (same.atH < 1) continue;
      expect(Math.abs(exact.relativeHumidityPct / same.rhPct - 1)).toBeLessThan(0.005);
      // Where the air moves fast, a first-order step of 15 minutes lags behind it.
      expect(Math.abs(coarse.relativeHumidityPct / same.rhPct - 1)).toBeLessThan(0.05);
    }
  });

  test('at one minute steps even the first hour agrees', () => {
    const theirs = integrate(base, 1);
    const { room, groups } = ours(base);
    const run = simulateRoom(room, groups, { hours: 1, stepH: 1 / 60 });
    for (const same of theirs) {
      const step = run.steps.find((one) => Math.abs(one.atH - same.atH) < 1e-9)!;
      expect(Math.abs(step.relativeHumidityPct / same.rhPct - 1)).toBeLessThan(0.01);
      expect(Math.abs(step.moistureX[0]! - same.x[0]!)).toBeLessThan(0.001);
    }
  });

  test('the dose gained agrees within 2 % at 15 minutes (ours takes the wetter end of each step) and 0.5 % at one minute', () => {
    const theirs = integrate(base, 10);
    const { room, groups } = ours(base);
    const dose = (stepH: number): number => simulateRoom(room, groups, { hours: 10, stepH }).groups[0]!.doseGained;
    const last = theirs.at(-1)!.dose[0]!;
    expect(Math.abs(dose(0.25) / last - 1)).toBeLessThan(0.02);
    expect(Math.abs(dose(1 / 60) / last - 1)).toBeLessThan(0.005);
    expect(dose(0.25)).toBeGreaterThanOrEqual(last);
  });
});
