import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { DEFAULT_CALIBRATION, dehumidifierRemovalKgPerH, humidityRatio, moistAir, specificVolumeM3PerKg, type Dehumidifier } from '#climate';
import { NO_WATCH, watchOn, watchVerdict, type MachineWatch } from '#application';
import { at } from './room.support.js';

const values = DEFAULT_CALIBRATION;
const MACHINE: Dehumidifier = { kind: 'refrigerant', ratedLitresPerDay: 70, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 };

interface World {
  volumeM3: number;
  airChangesPerH: number;
  outdoor: { airTempC: number; relativeHumidityPct: number };
  /** What is told to the watch of evaporation and air exchange, as shares of what is so. */
  evaporationTold: number;
  exchangeTold: number;
}

/**
 * A room in which the water account is exact: what the machine takes is what is left of evaporation and outdoor air. The watch is
 * told evaporation and air exchange with an error.
 */
function watched(world: World, stretches: readonly { humidityPct: number; takesShare: number }[]): MachineWatch {
  const airTempC = 20;
  let watch = NO_WATCH;
  stretches.slice(1).forEach(({ humidityPct, takesShare }, i) => {
    const before = { atMs: at(i / 4), airTempC, relativeHumidityPct: stretches[i]!.humidityPct };
    const after = { atMs: at((i + 1) / 4), airTempC, relativeHumidityPct: humidityPct };
    const air = { airTempC, relativeHumidityPct: (before.relativeHumidityPct + humidityPct) / 2 };
    const dryAirKg = world.volumeM3 / specificVolumeM3PerKg(moistAir(air));
    const [first, last] = [humidityRatio(moistAir(before)), humidityRatio(moistAir(after))];
    const outside = humidityRatio(moistAir(world.outdoor));
    const vented = dryAirKg * world.airChangesPerH * 0.25 * ((first + last) / 2 - outside);
    const taken = takesShare * 0.25 * dehumidifierRemovalKgPerH(MACHINE, air, false, values);
    const evaporated = taken + vented + dryAirKg * (last - first);
    watch = watchOn(watch, { before, after, evaporatedKg: evaporated * world.evaporationTold, volumeM3: world.volumeM3, airChangesPerH: world.airChangesPerH * world.exchangeTold, outdoorHumidityRatio: outside, machines: [MACHINE] }, values);
  });
  return watch;
}

const DRY_OUTSIDE = { airTempC: 12, relativeHumidityPct: 80 };
const steady = (share: number, count = 9, humidityPct = 66) => Array.from({ length: count }, () => ({ humidityPct, takesShare: share }));
const world = (change: Partial<World> = {}): World => ({ volumeM3: 600, airChangesPerH: 0.3, outdoor: DRY_OUTSIDE, evaporationTold: 1, exchangeTold: 1, ...change });
const verdict = (watch: MachineWatch) => watchVerdict(watch, values)?.verdict;

describe('machines held against their labels', () => {
  test('one that does what its label says is believed; one that stands still is not, however dry or damp it is outside', () => {
    expect(verdict(watched(world(), steady(1)))).toBe('off');
    expect(verdict(watched(world(), steady(0)))).toBe('on');
    expect(verdict(watched(world({ outdoor: { airTempC: 24, relativeHumidityPct: 90 }, airChangesPerH: 0.1 }), [...steady(1), ...steady(0, 8)]))).toBe('on');
  });

  test('no false alarm: a machine that works stays believed while evaporation is off by its error and the air exchange by a factor of two', () => {
    fc.assert(fc.property(fc.double({ min: 0.7, max: 1 / 0.7, noNaN: true }), fc.double({ min: 0.5, max: 2, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 61, max: 78, noNaN: true }), (evaporationTold, exchangeTold, airChangesPerH, humidityPct) => {
      expect(verdict(watched(world({ evaporationTold, exchangeTold, airChangesPerH }), steady(1, 9, humidityPct)))).not.toBe('on');
    }));
  });

  test('a trip is seen within an hour and a half although outdoor air brings in more than the machine takes', () => {
    const muggy = world({ outdoor: { airTempC: 24, relativeHumidityPct: 90 }, airChangesPerH: 0.5 });
    const climb = [66, 70, 74, 78, 81, 84].map((humidityPct) => ({ humidityPct, takesShare: 0 }));
    expect(verdict(watched(muggy, steady(1)))).toBe('off');
    const verdicts = climb.map((_, i) => verdict(watched(muggy, [...steady(1), ...climb.slice(0, i + 1)])));
    expect(verdicts).toContain('on');
    expect(watchVerdict(watched(muggy, [...steady(1), ...climb]), values)!.evidence).toMatchObject({ running: 1 });
  });

  test('says nothing of dry air, in which a machine may rest, of less than an hour, and across a gap that nobody read', () => {
    expect(verdict(watched(world(), steady(0, 9, 50)))).toBe('off');
    expect(watchVerdict(watched(world(), steady(0, 4)), values)).toBeNull();
    const gap = watchOn(watched(world(), steady(0)), { before: { atMs: at(2), airTempC: 20, relativeHumidityPct: 66 }, after: { atMs: at(4), airTempC: 20, relativeHumidityPct: 66 }, evaporatedKg: 0, volumeM3: 600, airChangesPerH: 0.3, outdoorHumidityRatio: 0.007, machines: [MACHINE] }, values);
    expect(watchVerdict(gap, values)).toBeNull();
  });

  test('begins anew with other machines, and believes a room without any', () => {
    const changed = watchOn(watched(world(), steady(0)), { before: { atMs: at(2), airTempC: 20, relativeHumidityPct: 66 }, after: { atMs: at(2.25), airTempC: 20, relativeHumidityPct: 66 }, evaporatedKg: 0, volumeM3: 600, airChangesPerH: 0.3, outdoorHumidityRatio: 0.007, machines: null }, values);
    expect(changed).toEqual(NO_WATCH);
  });
});
