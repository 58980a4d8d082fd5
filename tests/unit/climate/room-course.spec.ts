import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { advanceRoomCourse, calibrate, ClimateRangeError, simulateRoom, startRoomCourse, type CourseGoods, type RoomCourseState, type RoomEvent } from '#climate';
import { baseRoom, forty, machine } from '../../reference/climate/worked-room.js';
import { hallAir, number } from './arbitraries.js';

const H = 3_600_000;
const T0 = Date.UTC(2026, 4, 9, 7);
const goods: CourseGoods = { id: 'covers', count: 40, dryMassKg: 0.5, exposedAreaM2: 3, material: 'cotton', moistureX: 1, targetX: 0.085, airReach: 'open-rack' };
const forcing = { airTempC: 20, airChangesPerH: 0.5, outdoorTempC: 12, outdoorRelativeHumidityPct: 80, dehumidifiers: [machine, machine], airSpeedMPerS: 0.1 };
const roomA = (more: Partial<Parameters<typeof startRoomCourse>[0]> = {}) => startRoomCourse({ atMs: T0, volumeM3: 60, relativeHumidityPct: 60, forcing, goods: [goods], ...more });
const airContentKg = (state: RoomCourseState): number => state.dryAirKg * state.humidityRatio;

/** Changes at whole minutes; groups are hung under names of their own, so that any of them may come at any time. */
const change = (i: number): fc.Arbitrary<RoomEvent> =>
  fc.oneof(
    hallAir.map((air): RoomEvent => ({ atMs: 0, kind: 'reading', ...air })),
    number(2, 40).map((airTempC): RoomEvent => ({ atMs: 0, kind: 'room-temp', airTempC })),
    fc.record({ outdoorTempC: number(-10, 35), outdoorRelativeHumidityPct: number(10, 100) }).map((outdoor): RoomEvent => ({ atMs: 0, kind: 'outdoor', ...outdoor })),
    fc.integer({ min: 0, max: 3 }).map((n): RoomEvent => ({ atMs: 0, kind: 'machines', dehumidifiers: Array.from({ length: n }, () => machine) })),
    number(0, 8).map((airChangesPerH): RoomEvent => ({ atMs: 0, kind: 'ventilation', airChangesPerH })),
    number(0, 2).map((airSpeedMPerS): RoomEvent => ({ atMs: 0, kind: 'air-speed', airSpeedMPerS })),
    number(0.3, 2).map((moistureX): RoomEvent => ({ atMs: 0, kind: 'hang', goods: { ...goods, id: `added ${i}`, count: 7, moistureX } })),
    fc.constant<RoomEvent>({ atMs: 0, kind: 'rearranged', id: 'covers', airReach: 'fan-across' }),
    number(0.1, 1).map((moistureX): RoomEvent => ({ atMs: 0, kind: 'weighed', id: 'covers', moistureX })),
    fc.constant<RoomEvent>({ atMs: 0, kind: 'take', id: 'covers', count: 1 }),
  );
const story = (hours: number): fc.Arbitrary<RoomEvent[]> =>
  fc.array(fc.integer({ min: 1, max: hours * 60 - 1 }), { maxLength: 8 }).chain((minutes) =>
    fc.tuple(...[...minutes].sort((a, b) => a - b).map((minute, i) => change(i).map((event): RoomEvent => ({ ...event, atMs: T0 + minute * 60_000 })))));

describe('a course in steady forcing', () => {
  test('is the run of the room: worked room A dries at the same minute with the same dose', () => {
    const run = simulateRoom(baseRoom, [forty], { hours: 24 });
    const { state } = advanceRoomCourse(roomA(), T0 + 24 * H, { air: 'simulated' });
    expect((state.groups[0]!.dryAtMs! - T0) / H).toBeCloseTo(run.allDryAtH!, 5);
    const early = advanceRoomCourse(roomA(), T0 + 3 * H, { air: 'simulated' }).state;
    const three = simulateRoom(baseRoom, [forty], { hours: 3 });
    expect(early.groups[0]!.moistureX).toBeCloseTo(three.groups[0]!.endX, 12);
    expect(early.groups[0]!.dose).toBeCloseTo(three.groups[0]!.endDose, 12);
    expect(early.relativeHumidityPct).toBeCloseTo(three.endRelativeHumidityPct, 9);
  });
});

describe('in parts as in one', () => {
  test('replayed in two or three parts a course ends within 1e-9 of one that ran through, whatever happens on the way', () => {
    fc.assert(
      fc.property(story(10), fc.constantFrom('measured' as const, 'simulated' as const), number(0, 10), number(0, 10), (events, air, a, b) => {
        const end = T0 + 10 * H;
        const cuts = [a, b].map((hours) => T0 + Math.round(hours * H)).sort((x, y) => x - y);
        const through = advanceRoomCourse(roomA(), end, { air, events }).state;
        let from = T0 - 1;
        let state = roomA();
        for (const cut of [...cuts, end]) {
          state = advanceRoomCourse(JSON.parse(JSON.stringify(state)), cut, { air, events: events.filter((event) => event.atMs > from && event.atMs <= cut) }).state;
          from = cut;
        }
        expect(Math.abs(state.humidityRatio - through.humidityRatio)).toBeLessThan(1e-9);
        expect(Math.abs(state.water.evaporatedKg - through.water.evaporatedKg)).toBeLessThan(1e-9);
        expect(state.groups.map((group) => group.id)).toEqual(through.groups.map((group) => group.id));
        state.groups.forEach((group, i) => {
          expect(Math.abs(group.moistureX - through.groups[i]!.moistureX)).toBeLessThan(1e-9);
          expect(Math.abs(group.dose - through.groups[i]!.dose)).toBeLessThan(1e-9);
          expect(group.dryAtMs).toBe(through.groups[i]!.dryAtMs);
        });
      }),
      { numRuns: 80 },
    );
  });

  test('an event at the time of the cut may come with either part', () => {
    const cut = T0 + 2.1 * H;
    const event: RoomEvent = { atMs: cut, kind: 'machines', dehumidifiers: [] };
    const before = advanceRoomCourse(advanceRoomCourse(roomA(), cut, { air: 'simulated', events: [event] }).state, T0 + 5 * H, { air: 'simulated' }).state;
    const after = advanceRoomCourse(advanceRoomCourse(roomA(), cut, { air: 'simulated' }).state, T0 + 5 * H, { air: 'simulated', events: [event] }).state;
    expect(after).toEqual(before);
  });

  test('the state given is not changed, and survives being written down', () => {
    const start = roomA();
    const text = JSON.stringify(start);
    const { state } = advanceRoomCourse(start, T0 + 100_000, { air: 'simulated' });
    expect(JSON.stringify(start)).toBe(text);
    expect(JSON.parse(JSON.stringify(state))).toEqual(state);
    expect(state.resume).not.toBeNull();
  });
});

describe('water', () => {
  test('is all accounted for, in measured and in reckoned air', () => {
    fc.assert(
      fc.property(story(8), fc.constantFrom('measured' as const, 'simulated' as const), (events, air) => {
        const start = roomA();
        const { state } = advanceRoomCourse(start, T0 + 8 * H, { air, events });
        const { evaporatedKg, outdoorAirKg, dehumidifiedKg, condensedKg, notAttributedKg, worstImbalanceKg } = state.water;
        expect(worstImbalanceKg).toBeLessThan(1e-9);
        expect(Math.abs(evaporatedKg - outdoorAirKg - dehumidifiedKg - condensedKg - notAttributedKg - (airContentKg(state) - airContentKg(start)))).toBeLessThan(1e-8);
      }),
      { numRuns: 60 },
    );
  });

  test('comes to its end where the last piece of a step is itself too long for one step', () => {
    // A closed room that was warmed to 40 C: found by the property below, and tried for ever before.
    const at = (minutes: number) => T0 + minutes * 60_000;
    const events: RoomEvent[] = [
      { atMs: at(84), kind: 'reading', airTempC: 1.0000000000000007, relativeHumidityPct: 58.92190282222083 }, { atMs: at(108), kind: 'machines', dehumidifiers: [] }, { atMs: at(185), kind: 'room-temp', airTempC: 5.431769590552255 },
      { atMs: at(219), kind: 'ventilation', airChangesPerH: 6e-323 }, { atMs: at(248), kind: 'ventilation', airChangesPerH: 4.1861915710493826e-159 }, { atMs: at(285), kind: 'room-temp', airTempC: 39.999999999999986 },
    ];
    const { state } = advanceRoomCourse(roomA({ goods: [{ ...goods, dose: 0.2 }] }), T0 + 6 * H, { air: 'simulated', events });
    expect(state.atMs).toBe(T0 + 6 * H);
  });

  test('room air is never over 100 % and a dose never falls', () => {
    fc.assert(
      fc.property(story(6), (events) => {
        const { state, steps } = advanceRoomCourse(roomA({ goods: [{ ...goods, dose: 0.2 }] }), T0 + 6 * H, { air: 'simulated', events });
        for (const step of steps) expect(step.relativeHumidityPct).toBeLessThanOrEqual(100);
        for (const group of state.groups) expect(group.dose).toBeGreaterThanOrEqual(group.doseAtHanging);
      }),
      { numRuns: 40 },
    );
  });
});

describe('what happens in a room', () => {
  const at = (hours: number, event: { kind: string } & Record<string, unknown>): RoomEvent => ({ atMs: T0 + hours * H, ...event }) as RoomEvent;
  const run = (events: RoomEvent[], hours = 8, air: 'measured' | 'simulated' = 'simulated') => advanceRoomCourse(roomA(), T0 + hours * H, { air, events });

  test('measured air decides how goods dry, and the balance does not', () => {
    const dry = run([at(0, { kind: 'reading', airTempC: 20, relativeHumidityPct: 40 }), at(2, { kind: 'reading', airTempC: 20, relativeHumidityPct: 40 })], 3, 'measured');
    expect(dry.steps.every((step) => step.measured && step.relativeHumidityPct > 39.9 && step.relativeHumidityPct < 40.1)).toBe(true);
    expect(dry.state.groups[0]!.moistureX).toBeLessThan(run([], 3).state.groups[0]!.moistureX);
    expect(dry.state.water.notAttributedKg).toBeGreaterThan(0);
  });

  test('a reading does not hold for ever: after the hold the air is reckoned from it', () => {
    const { steps } = run([], 8, 'measured');
    expect(steps.filter((step) => step.measured).at(-1)!.toMs).toBe(T0 + 3 * H);
    expect(steps.at(-1)!.measured).toBe(false);
    const held = advanceRoomCourse(roomA(), T0 + 8 * H, { air: 'measured' }, calibrate({ readingHoldH: 8 }));
    expect(held.steps.every((step) => step.measured)).toBe(true);
  });

  test('machines that trip let the room rise, and it falls again when they return', () => {
    const { steps } = run([at(2, { kind: 'machines', dehumidifiers: [] }), at(4, { kind: 'machines', dehumidifiers: [machine, machine] })]);
    const humidityAt = (hours: number): number => steps.find((step) => step.toMs === T0 + hours * H)!.relativeHumidityPct;
    expect(humidityAt(4)).toBeGreaterThan(humidityAt(2) + 10);
    expect(humidityAt(6)).toBeCloseTo(humidityAt(2), 0);
    expect(steps.find((step) => step.toMs === T0 + 3 * H)!.dehumidifiersKgPerH).toBe(0);
  });

  test('goods hung later start their own curve, and what is taken leaves as it stood', () => {
    const { state, taken } = run([at(2, { kind: 'hang', goods: { ...goods, id: 'later', count: 5 } }), at(3, { kind: 'take', id: 'covers', count: 15 }), at(4, { kind: 'take', id: 'covers' })]);
    expect(state.groups.map((group) => group.id)).toEqual(['later']);
    expect(state.groups[0]!.hungAtMs).toBe(T0 + 2 * H);
    expect(taken.map((group) => [group.count, (group.takenAtMs - T0) / H])).toEqual([[15, 3], [25, 4]]);
    expect(taken[0]!.moistureX).toBeGreaterThan(taken[1]!.moistureX);
    expect(state.groups[0]!.moistureX).toBeLessThan(1);
  });

  test('a weighing puts the reckoning right', () => {
    const { state } = run([at(4, { kind: 'weighed', id: 'covers', moistureX: 0.08 })], 4);
    expect(state.groups[0]).toMatchObject({ moistureX: 0.08, dryAtMs: T0 + 4 * H });
    const wet = run([at(4, { kind: 'weighed', id: 'covers', moistureX: 0.08 }), at(4, { kind: 'weighed', id: 'covers', moistureX: 0.5 })], 4);
    expect(wet.state.groups[0]!.dryAtMs).toBeNull();
  });

  test('spreading goods out dries them faster from then on, and forgets the factor that was fitted before', () => {
    const packed = roomA({ goods: [{ ...goods, arrangementFactor: 0.2 }] });
    const spread = advanceRoomCourse(packed, T0 + 4 * H, { air: 'simulated', events: [at(0, { kind: 'rearranged', id: 'covers', airReach: 'fan-across' })] }).state;
    expect(spread.groups[0]!.arrangementFactor).toBeUndefined();
    expect(spread.groups[0]!.moistureX).toBeLessThan(advanceRoomCourse(packed, T0 + 4 * H, { air: 'simulated' }).state.groups[0]!.moistureX);
  });

  test('in a room that falls below 1 C goods stand still, and what the air cannot hold is reported', () => {
    const cold = run([at(1, { kind: 'room-temp', airTempC: -4 })], 6);
    const warm = run([], 1).state.groups[0]!;
    expect(cold.state.groups[0]!.moistureX).toBeCloseTo(warm.moistureX, 12);
    expect(cold.state.groups[0]!.dose).toBeCloseTo(warm.dose, 12);
    expect(cold.state.water.condensedKg).toBeGreaterThan(0);
  });

  test.each([
    ['an event from before', [at(-1, { kind: 'machines', dehumidifiers: [] })], /replay from an earlier state/],
    ['events out of order', [at(2, { kind: 'ventilation', airChangesPerH: 1 }), at(1, { kind: 'ventilation', airChangesPerH: 1 })], /sort the events/],
    ['an event after the end', [at(9, { kind: 'ventilation', airChangesPerH: 1 })], /with the next part/],
    ['a group hung twice', [at(1, { kind: 'hang', goods })], /already/],
    ['a group that is not there', [at(1, { kind: 'take', id: 'curtains' })], /No group curtains/],
    ['more than there are', [at(1, { kind: 'take', id: 'covers', count: 41 })], /has 40/],
    ['a reading in kelvin', [at(1, { kind: 'reading', airTempC: 293, relativeHumidityPct: 50 })], /Celsius/],
    ['an unknown kind', [at(1, { kind: 'flood' })], /flood/],
  ])('%s is refused', (_name, events, words) => {
    expect(() => run(events)).toThrow(ClimateRangeError);
    expect(() => run(events)).toThrow(words);
  });

  test('a course does not go back', () => {
    const later = run([], 2).state;
    expect(() => advanceRoomCourse(later, T0 + H, { air: 'simulated' })).toThrow(/goes forward/);
  });
});
