import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { calibrate, ClimateRangeError, itemsAcceptable, roomSteadyState, simulateRoom, sustainedRemoval, sustainedRemovalKgPerH, ventilationAdvice, type SimulatedRoom, type WetGroup } from '#climate';
import { hallAir, number, room, wetGroup } from './arbitraries.js';

const hall: SimulatedRoom = {
  volumeM3: 400,
  airTempC: 20,
  startRelativeHumidityPct: 60,
  airChangesPerH: 0.5,
  outdoorTempC: 12,
  outdoorRelativeHumidityPct: 80,
  dehumidifiers: [{ kind: 'refrigerant', ratedLitresPerDay: 60, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 }],
};
const quiltTop: WetGroup = { count: 10, dryMassKg: 1, exposedAreaM2: 6, material: 'cotton', startX: 1, airReach: 'open-rack' };

describe('a run of a room', () => {
  test('loses no water: each step balances to 1e-9 kg and the whole run adds up', () => {
    fc.assert(
      fc.property(room, fc.array(wetGroup, { minLength: 1, maxLength: 3 }), (input, groups) => {
        const result = simulateRoom(input, groups, { hours: 6 });
        expect(result.worstImbalanceKg).toBeLessThan(1e-9);
        const lost = groups.reduce((sum, group, i) => sum + group.count * group.dryMassKg * (group.startX - result.groups[i]!.endX), 0);
        expect(Math.abs(result.evaporatedKg - lost)).toBeLessThan(1e-7);
      }),
      { numRuns: 60 },
    );
  });

  test('never lifts the room above saturation, and machines never take more than they can', () => {
    fc.assert(
      fc.property(room, wetGroup, (input, group) => {
        const result = simulateRoom(input, [group], { hours: 4, promise: true });
        for (const step of result.steps) expect(step.relativeHumidityPct).toBeLessThanOrEqual(100);
        const label = input.dehumidifiers.reduce((sum, machine) => sum + machine.ratedLitresPerDay, 0);
        expect(result.dehumidifiedKg).toBeLessThanOrEqual((label / 24) * 4 + 1e-9);
        expect(result.condensedKg).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 60 },
    );
  });

  test('splitting a step in two changes X by less than 1e-3, and the hours to dry by less than a step', () => {
    const split = [0.25, 0.125].map((stepH) => simulateRoom(hall, [quiltTop], { hours: 0.25, stepH }).groups[0]!.endX);
    expect(Math.abs(split[0]! - split[1]!)).toBeLessThan(1e-3);
    const hours = [0.25, 0.05].map((stepH) => simulateRoom(hall, [quiltTop], { hours: 48, stepH }).allDryAtH!);
    expect(Math.abs(hours[0]! - hours[1]!)).toBeLessThan(0.25);
  });

  const ordinary = fc.record({
    volumeM3: number(40, 800), airTempC: number(12, 28), startRelativeHumidityPct: number(45, 85), airChangesPerH: number(0.2, 3),
    outdoorTempC: number(0, 25), outdoorRelativeHumidityPct: number(40, 95), dehumidifiers: fc.integer({ min: 0, max: 4 }).map((n) => Array.from({ length: n }, () => hall.dehumidifiers[0]!)),
  });
  const ordinaryGoods = fc.record({ count: fc.integer({ min: 1, max: 80 }), dryMassKg: number(0.3, 3), startX: number(0.3, 1.5), airReach: fc.constantFrom('packed-rack' as const, 'open-rack' as const) });

  test.each([['5', 1 / 12], ['15', 1 / 4]])('splitting a step of %s minutes in two changes X by less than 1e-3, in any room of ordinary size and load', (_name, hours) => {
    fc.assert(
      fc.property(ordinary, ordinaryGoods, number(1, 6), (input, group, areaPerKg) => {
        const things: WetGroup = { ...group, exposedAreaM2: areaPerKg * group.dryMassKg, material: 'cotton' };
        const [whole, halves] = [hours, hours / 2].map((stepH) => simulateRoom(input, [things], { hours, stepH }).groups[0]!.endX);
        expect(Math.abs(whole! - halves!)).toBeLessThan(1e-3);
      }),
      { numRuns: 300 },
    );
  });

  test('a small thing in a small room that machines dry within minutes: a quarter hour in one step comes within 1e-3 of steps of 36 seconds', () => {
    const hot: SimulatedRoom = { volumeM3: 40, airTempC: 28, startRelativeHumidityPct: 85, airChangesPerH: 0.2, outdoorTempC: 0, outdoorRelativeHumidityPct: 40, dehumidifiers: Array.from({ length: 4 }, () => hall.dehumidifiers[0]!) };
    const small: WetGroup = { count: 1, dryMassKg: 0.3, exposedAreaM2: 1.8, material: 'cotton', startX: 1, airReach: 'open-rack' };
    const [whole, fine] = [0.25, 0.01].map((stepH) => simulateRoom(hot, [small], { hours: 0.25, stepH }));
    expect(Math.abs(whole!.groups[0]!.endX - fine!.groups[0]!.endX)).toBeLessThan(1e-3);
    expect(Math.abs(whole!.endRelativeHumidityPct / fine!.endRelativeHumidityPct - 1)).toBeLessThan(0.05);
    // Short steps inside are one step outside, and its water is still accounted for.
    expect(whole!.steps).toHaveLength(1);
    expect(whole!.worstImbalanceKg).toBeLessThan(1e-9);
  });

  test('can be stopped and taken up again from where it stood', () => {
    const through = simulateRoom(hall, [quiltTop], { hours: 5 });
    const first = simulateRoom(hall, [quiltTop], { hours: 2 });
    const second = simulateRoom({ ...hall, startRelativeHumidityPct: first.endRelativeHumidityPct }, [{ ...quiltTop, startX: first.groups[0]!.endX, startDose: first.groups[0]!.endDose }], { hours: 3 });
    expect(second.groups[0]!.endX).toBeCloseTo(through.groups[0]!.endX, 4);
    expect(second.groups[0]!.endDose).toBeCloseTo(through.groups[0]!.endDose, 4);
  });

  test('like things in one group or in two are the same', () => {
    const one = simulateRoom(hall, [quiltTop], { hours: 4 });
    const two = simulateRoom(hall, [{ ...quiltTop, count: 4 }, { ...quiltTop, count: 6 }], { hours: 4 });
    expect(two.groups[0]!.endX).toBeCloseTo(one.groups[0]!.endX, 10);
    expect(two.groups[1]!.endX).toBe(two.groups[0]!.endX);
  });

  test('dry things that hang in a damp room grow damp again', () => {
    const damp: SimulatedRoom = { ...hall, dehumidifiers: [], outdoorTempC: 20, outdoorRelativeHumidityPct: 95, airChangesPerH: 5, startRelativeHumidityPct: 95 };
    const result = simulateRoom(damp, [{ ...quiltTop, startX: 0.08 }, quiltTop], { hours: 24 });
    expect(result.groups[0]!.dryAtH).toBe(0);
    expect(result.groups[0]!.endX).toBeGreaterThan(0.08);
    expect(result.groups[0]!.doseGained).toBeGreaterThan(0);
  });

  test('an empty room runs its time and settles between start and outdoors', () => {
    const result = simulateRoom({ ...hall, dehumidifiers: [] }, [], { hours: 12 });
    expect(result.steps).toHaveLength(48);
    expect(result.endRelativeHumidityPct).toBeLessThan(60);
    expect(result.evaporatedKg).toBe(0);
  });

  test('a machine far too big for the room takes only what is there', () => {
    const dried = simulateRoom({ ...hall, volumeM3: 20, airChangesPerH: 0, dehumidifiers: [{ ...hall.dehumidifiers[0]!, ratedLitresPerDay: 2000 }] }, [], { hours: 2 });
    expect(dried.dehumidifiedKg).toBeLessThan(0.25);
    expect(dried.endRelativeHumidityPct).toBeGreaterThanOrEqual(0);
    expect(dried.worstImbalanceKg).toBeLessThan(1e-9);
  });
});

describe('steady state', () => {
  test('balances: evaporation = outdoor air + machines + condensation', () => {
    fc.assert(fc.property(room, fc.array(wetGroup, { maxLength: 3 }), (input, groups) => {
      const steady = roomSteadyState(input, groups);
      const out = steady.outdoorAirKgPerH + steady.dehumidifiersKgPerH + steady.condensationKgPerH;
      expect(Math.abs(steady.evaporationKgPerH - out)).toBeLessThan(1e-6);
      expect(steady.relativeHumidityPct).toBeLessThanOrEqual(100);
    }));
  });

  test('outdoor air wetter than the room can hold condenses and is reported', () => {
    const steady = roomSteadyState({ ...hall, dehumidifiers: [], airTempC: 12, outdoorTempC: 28, outdoorRelativeHumidityPct: 90 }, [quiltTop]);
    expect(steady.relativeHumidityPct).toBeCloseTo(100, 9);
    expect(steady.condensationKgPerH).toBeGreaterThan(0);
  });

  test('a dehumidifier gives latent heat back, so the room needs less than with open windows', () => {
    const windows = roomSteadyState({ ...hall, dehumidifiers: [], airChangesPerH: 3 }, [quiltTop]);
    expect(windows.heatToHoldKw).toBeGreaterThan(roomSteadyState(hall, [quiltTop]).heatToHoldKw);
  });
});

describe('quick screen', () => {
  test('more machines never shed less, and it is never negative', () => {
    fc.assert(fc.property(room, number(40, 90), (input, capPct) => {
      const base = sustainedRemovalKgPerH({ ...input, capPct });
      expect(base).toBeGreaterThanOrEqual(0);
      expect(sustainedRemovalKgPerH({ ...input, capPct, dehumidifiers: [...input.dehumidifiers, ...hall.dehumidifiers] })).toBeGreaterThanOrEqual(base);
    }));
  });

  test('a muggy day through leaky walls is counted against the machines', () => {
    const muggy = { ...hall, outdoorTempC: 28, outdoorRelativeHumidityPct: 90, airChangesPerH: 4 };
    const outcome = sustainedRemoval(muggy);
    expect(outcome.outdoorAirKgPerH).toBeLessThan(0);
    expect(outcome.totalKgPerH).toBe(0);
    expect(outcome.advice).toMatch(/cannot shed/);
  });
});

describe('ventilation advice', () => {
  test('windows are advised only when outdoor air holds less water', () => {
    fc.assert(fc.property(hallAir, hallAir, (indoor, outdoor) => {
      const { advice, dryingPotentialKgPerKg } = ventilationAdvice(indoor, outdoor);
      if (advice === 'ventilate') expect(dryingPotentialKgPerKg).toBeGreaterThan(0);
      if (dryingPotentialKgPerKg <= 0) expect(advice).toBe('keep-closed');
    }));
  });

  test('cool air at 95 % dries a warm room at 60 %; a difference below the hygrometers is not advised on', () => {
    expect(ventilationAdvice({ airTempC: 22, relativeHumidityPct: 60 }, { airTempC: 8, relativeHumidityPct: 95 }).advice).toBe('ventilate');
    expect(ventilationAdvice({ airTempC: 20, relativeHumidityPct: 60 }, { airTempC: 20, relativeHumidityPct: 58 }).advice).toBe('no-difference');
  });
});

describe('how much can we accept', () => {
  const { count: _count, ...item } = quiltTop;

  test('the answer holds, and one more breaks the limit that it names', () => {
    fc.assert(
      fc.property(number(50, 800), fc.integer({ min: 0, max: 3 }), number(60, 85), (volumeM3, machines, capPct) => {
        const input = { ...hall, volumeM3, dehumidifiers: Array.from({ length: machines }, () => hall.dehumidifiers[0]!) };
        const answer = itemsAcceptable({ room: input, item, capPct, stepH: 0.5 });
        const run = (count: number) => simulateRoom(input, [{ ...item, count }], { hours: 72, stepH: 0.5, promise: true });
        const fits = (count: number): boolean => {
          const result = run(count);
          return result.allDryAtH !== null && result.groups[0]!.endDose <= 1 && result.peakRelativeHumidityPct <= capPct;
        };
        if (answer.items > 0) expect(fits(answer.items)).toBe(true);
        expect(fits(answer.items + 1)).toBe(false);
        if (answer.limitedBy === 'humidity-cap') expect(run(answer.items + 1).peakRelativeHumidityPct).toBeGreaterThan(capPct);
      }),
      { numRuns: 12 },
    );
  });

  test('what hangs already takes its share', () => {
    const free = itemsAcceptable({ room: hall, item }).items;
    const shared = itemsAcceptable({ room: hall, item, existing: [{ ...quiltTop, count: 5 }] }).items;
    expect(shared).toBeLessThan(free);
    expect(shared).toBeGreaterThanOrEqual(free - 5 - 1);
  });

  test('thick goods load the room no less and are given longer, so a tight limit refuses them first', () => {
    const thin = itemsAcceptable({ room: hall, item });
    const thick = itemsAcceptable({ room: hall, item: { ...item, build: 'thick' } });
    expect(thick.items).toBeLessThanOrEqual(thin.items);
    expect(thick.allDryAtH!).toBeGreaterThan(2 * thin.allDryAtH!);
    // Twice what a single thin one needs is not enough for a band that reaches four times as far.
    const withinH = 2 * simulateRoom(hall, [{ ...item, count: 1 }], { hours: 72 }).allDryAtH!;
    expect(itemsAcceptable({ room: hall, item, withinH }).items).toBeGreaterThan(0);
    expect(itemsAcceptable({ room: hall, item: { ...item, build: 'closed' }, withinH })).toMatchObject({ items: 0, limitedBy: 'time' });
    expect(() => itemsAcceptable({ room: hall, item: { ...item, build: JSON.parse('"fluffy"') } })).toThrow(/thin, thick, closed/);
  });

  test('a thing close to red may be refused where a fresh one is taken', () => {
    const slow = { ...item, airReach: 'packed-rack' as const };
    expect(itemsAcceptable({ room: hall, item: slow }).items).toBeGreaterThan(0);
    expect(itemsAcceptable({ room: hall, item: { ...slow, startDose: 0.95 } })).toMatchObject({ items: 0, limitedBy: 'mould-clock', allDryAtH: null, peakRelativeHumidityPct: null });
  });

  test('racks, time and the search limit can be what binds', () => {
    expect(itemsAcceptable({ room: hall, item, freeRackM2: 0.3, rackM2PerItem: 0.1 })).toMatchObject({ items: 3, limitedBy: 'rack-area' });
    expect(itemsAcceptable({ room: hall, item, freeRackM2: 0, rackM2PerItem: 0.1 })).toMatchObject({ items: 0, limitedBy: 'rack-area' });
    expect(itemsAcceptable({ room: hall, item, withinH: 1 })).toMatchObject({ items: 0, limitedBy: 'time' });
    expect(itemsAcceptable({ room: hall, item, itemsMax: 2 })).toMatchObject({ items: 2, limitedBy: 'items-max' });
  });

  test('a stricter cap of the network is obeyed when none is given', () => {
    const strict = calibrate({ roomCapPct: 62 });
    const answer = itemsAcceptable({ room: hall, item }, strict);
    expect(answer.peakRelativeHumidityPct ?? 0).toBeLessThanOrEqual(62);
    expect(answer.items).toBeLessThan(itemsAcceptable({ room: hall, item }).items);
  });
});

describe('refusals', () => {
  test.each([
    ['a room below freezing', () => simulateRoom({ ...hall, airTempC: -3 }, [quiltTop], { hours: 1 }), /freeze/],
    ['no volume', () => sustainedRemovalKgPerH({ ...hall, volumeM3: 0 }), /cubic metres/],
    ['a cap that is a fraction', () => sustainedRemovalKgPerH({ ...hall, capPct: 0.75 }), /capPct/],
    ['half a rack question', () => itemsAcceptable({ room: hall, item: quiltTop, freeRackM2: 4 }), /together/],
    ['a step of no time', () => simulateRoom(hall, [quiltTop], { hours: 1, stepH: 0 }), /stepH/],
    ['a negative count', () => simulateRoom(hall, [{ ...quiltTop, count: -1 }], { hours: 1 }), /count/],
  ])('%s', (_name, act, words) => {
    expect(act).toThrow(ClimateRangeError);
    expect(act).toThrow(words);
  });
});
