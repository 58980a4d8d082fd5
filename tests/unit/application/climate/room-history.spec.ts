import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { DEFAULT_CALIBRATION, type ClockReading } from '#climate';
import { forecastRoom, fromLastReading, moistures, standItems, startRoom, throughReadings, type HistoryInput, type RoomState } from '#application';
import { at, HOUR_MS, inputOf, itemOf, reading, stayOf } from './room.support.js';

const values = DEFAULT_CALIBRATION;

/** Everything from the first reading on. */
function full(input: HistoryInput): RoomState {
  const start = startRoom(input, values);
  if (start === null) throw new Error('no reading');
  return throughReadings(start, input, values).state;
}

/** The same in parts, each going on from what a checkpoint would have kept. */
function inParts(input: HistoryInput, cuts: readonly number[]): RoomState {
  const until = (ms: number): HistoryInput => ({ ...input, readings: input.readings.filter(({ atMs }) => atMs <= ms) });
  let state = JSON.parse(JSON.stringify(full(until(cuts[0]!)))) as RoomState;
  for (const ms of [...cuts.slice(1), Infinity]) {
    const later = { ...until(ms), readings: until(ms).readings.filter(({ atMs }) => atMs > state.atMs) };
    state = JSON.parse(JSON.stringify(throughReadings(state, later, values).state)) as RoomState;
  }
  return state;
}

function expectEqual(a: RoomState, b: RoomState): void {
  expect(b.atMs).toBe(a.atMs);
  expect(Object.keys(b.hanging).sort()).toEqual(Object.keys(a.hanging).sort());
  const [wet, other] = [moistures(a.course), moistures(b.course)];
  for (const [id, { x, slowX }] of wet) {
    expect(Math.abs(other.get(id)!.x - x)).toBeLessThan(1e-9);
    expect(Math.abs(other.get(id)!.slowX - slowX)).toBeLessThan(1e-9);
    const [clock, same] = [a.hanging[id]!.clock!, b.hanging[id]!.clock!];
    expect(Math.abs(same.dose - clock.dose)).toBeLessThan(1e-9);
    expect(Math.abs(same.hoursBy.assumed - clock.hoursBy.assumed)).toBeLessThan(1e-9);
  }
  expect(b.watch.stretches.length).toBe(a.watch.stretches.length);
  expect((b.watch.best?.share ?? 0) - (a.watch.best?.share ?? 0)).toBeCloseTo(0, 9);
}

/** A day in a room: readings at odd moments with gaps, things that come, go, move and are weighed. */
const anyDay = fc.record({
  steps: fc.array(fc.record({ gapMin: fc.integer({ min: 2, max: 400 }), rh: fc.double({ min: 35, max: 97, noNaN: true }), t: fc.double({ min: 4, max: 30, noNaN: true }) }), { minLength: 2, maxLength: 25 }),
  things: fc.array(
    fc.record({
      fromH: fc.double({ min: -2, max: 20, noNaN: true }), lastsH: fc.option(fc.double({ min: 0.1, max: 20, noNaN: true }), { nil: null }), moves: fc.boolean(),
      weighedH: fc.option(fc.double({ min: 0, max: 20, noNaN: true }), { nil: null }), sizeClass: fc.constantFrom('garment', 'double-quilt', 'book', 'a4-sheet'),
    }),
    { maxLength: 5 },
  ),
  trips: fc.option(fc.double({ min: 0, max: 20, noNaN: true }), { nil: null }),
  factor: fc.option(fc.double({ min: 0.1, max: 2, noNaN: true }), { nil: null }),
}).map(({ steps, things, trips, factor }): HistoryInput => {
  let hours = 0;
  const readings = steps.map(({ gapMin, rh, t }): ClockReading => reading((hours += gapMin / 60), rh, t));
  const stays = things.flatMap(({ fromH, lastsH, moves }, i) => {
    const toH = lastsH === null ? null : fromH + lastsH;
    const middle = fromH + (lastsH ?? 10) / 2;
    return moves ? [stayOf(`i${i}`, fromH, middle), stayOf(`i${i}`, middle, toH, { seq: 4, placeId: 'S1', arrangement: 'screen' })] : [stayOf(`i${i}`, fromH, toH)];
  });
  const items = things.map(({ weighedH, sizeClass }, i) => itemOf(`i${i}`, { sizeClass, dryMassG: 600, weighings: weighedH === null ? [] : [{ atMs: at(weighedH), massKg: 0.9, resolutionKg: 0.005 }] }));
  const base = inputOf();
  const speeds = factor === null ? [] : (['thin', 'thick'] as const).map((build) => ({ material: 'cotton' as const, build, arrangement: 'rack' as const, factor }));
  return { ...base, readings, stays, items, speeds, machines: base.machines.map((one) => ({ ...one, changes: trips === null ? [] : [{ atMs: at(trips), state: 'tripped' as const }] })) };
});

describe('the past of a room', () => {
  test('comes out the same in parts as in one, wherever it is cut, to 1e-9', () => {
    fc.assert(
      fc.property(anyDay, fc.array(fc.nat(24), { minLength: 1, maxLength: 4 }), (input, picks) => {
        const moments = input.readings.map(({ atMs }) => atMs);
        const cuts = [...new Set(picks.map((pick) => moments[pick % moments.length]!))].sort((a, b) => a - b);
        expectEqual(full(input), inParts(input, cuts));
      }),
      { numRuns: 25 },
    );
  });

  test('costs only the share that is new', () => {
    const input = inputOf({ readings: Array.from({ length: 97 }, (_, i) => reading(i / 4, 60)), stays: [stayOf('a', 1)], items: [itemOf('a')] });
    const start = startRoom({ ...input, readings: input.readings.slice(0, 1) }, values)!;
    const whole = throughReadings(start, input, values);
    const later = throughReadings(whole.state, { ...input, readings: [reading(24.25, 61)] }, values);
    expect(whole.cuts).toBeGreaterThan(95);
    expect(later.cuts).toBe(1);
  });

  test('a thing that hangs dries, its clock goes on, and neither ever goes back without being weighed', () => {
    const input = inputOf({ readings: [0, 1, 2, 3, 4, 5, 6].map((hour) => reading(hour, 55)), stays: [stayOf('a', 0.5)], items: [itemOf('a')] });
    const states = [2, 4, 6].map((hour) => full({ ...input, readings: input.readings.filter(({ atMs }) => atMs <= at(hour)) }));
    const xs = states.map((state) => moistures(state.course).get('a')!.x);
    const doses = states.map((state) => state.hanging['a']!.clock!.dose);
    expect(xs).toEqual(xs.toSorted((a, b) => b - a));
    expect(doses).toEqual(doses.toSorted((a, b) => a - b));
    expect(doses[0]).toBeGreaterThan(0.1);
  });

  test('what is moved within the room keeps its water and its clock; what leaves is told with both', () => {
    const readings = [0, 1, 2, 3].map((hour) => reading(hour, 60));
    const moved = full(inputOf({ readings, items: [itemOf('a')], stays: [stayOf('a', 0.5, 1.5), stayOf('a', 1.5, null, { seq: 4 })] }));
    const stayed = full(inputOf({ readings, items: [itemOf('a')], stays: [stayOf('a', 0.5)] }));
    expect(moistures(moved.course).get('a')!.x).toBeCloseTo(moistures(stayed.course).get('a')!.x, 9);
    expect(moved.hanging['a']!.clock!.dose).toBeCloseTo(stayed.hanging['a']!.clock!.dose, 9);
    expect(moved.hanging['a']!.hungAtMs).toBe(at(0.5));
    const gone = throughReadings(startRoom(inputOf({ readings }), values)!, inputOf({ readings, items: [itemOf('a')], stays: [stayOf('a', 0.5, 2.5)] }), values);
    expect(gone.left).toMatchObject([{ itemId: 'a', hungAtMs: at(0.5), takenAtMs: at(2.5) }]);
    expect(gone.state.hanging).toEqual({});
  });

  test('a weighing decides how wet it is from then on', () => {
    const items = [itemOf('a', { weighings: [{ atMs: at(2), massKg: 0.6, resolutionKg: 0.005 }] })];
    const state = full(inputOf({ readings: [0, 1, 2].map((hour) => reading(hour, 95)), stays: [stayOf('a', 0)], items }));
    expect(moistures(state.course).get('a')!.x).toBeCloseTo(0.2, 9);
    expect(state.hanging['a']).toMatchObject({ moistureBasis: 'weighed', knownAtMs: at(2) });
  });

  test('silence is never good news: the clock of a wet thing runs at least as fast in an hour that nobody read', () => {
    const input = inputOf({ readings: [0, 1].map((hour) => reading(hour, 60)), stays: [stayOf('a', 0)], items: [itemOf('a', { sizeClass: 'double-quilt', dryMassG: 2100 })] });
    const last = full(input);
    const silent = fromLastReading(last, at(11), { ...input, readings: [] }, values).state;
    const read = full({ ...input, readings: Array.from({ length: 12 }, (_, hour) => reading(hour, 60)) });
    expect(silent.hanging['a']!.clock!.dose).toBeGreaterThan(read.hanging['a']!.clock!.dose);
    expect(silent.hanging['a']!.clock!.hoursBy.assumed).toBeGreaterThan(last.hanging['a']!.clock!.hoursBy.assumed + 6);
  });
});

describe('what comes', () => {
  const many = (count: number, sizeClass = 'garment') => ({ items: Array.from({ length: count }, (_, i) => itemOf(`i${i}`, { sizeClass })), stays: Array.from({ length: count }, (_, i) => stayOf(`i${i}`, 0)) });

  test('thin goods get a moment within a band, thick ones a band alone, and the band holds the moment', () => {
    const state = full(inputOf({ readings: [reading(0, 50), reading(1, 50)], items: [itemOf('thin'), itemOf('thick', { sizeClass: 'double-quilt', dryMassG: 2100 })], stays: [stayOf('thin', 0), stayOf('thick', 0)] }));
    const { items } = forecastRoom(state, { humidityCapPct: 75, weather: [] }, values);
    const [thin, thick] = ['thin', 'thick'].map((id) => items.find(({ itemId }) => itemId === id)!);
    expect(thin!.dryExpectedMs).toBeGreaterThan(thin!.dryEarliestMs!);
    expect(thin!.dryLatestMs).toBeGreaterThan(thin!.dryExpectedMs!);
    expect(thick!.dryExpectedMs).toBeNull();
    expect(thick!.dryLatestMs === null || thick!.dryLatestMs > thick!.dryEarliestMs!).toBe(true);
  });

  test('a thing is called dry only when the late end of its band has passed as well', () => {
    const item = itemOf('thin');
    const standingAfter = (hours: number) => {
      const state = full(inputOf({ readings: Array.from({ length: hours * 2 + 1 }, (_, half) => reading(half / 2, 50)), items: [item], stays: [stayOf('thin', 0)] }));
      const [standing] = standItems(state, forecastRoom(state, { humidityCapPct: 75, weather: [] }, values), new Map([[item.id, item]]), { speeds: [], weighed: new Map() }, values);
      return standing!;
    };
    const all = Array.from({ length: 40 }, (_, hour) => standingAfter(hour + 1));
    const reckonedDry = all.findIndex(({ moistureX, targetX }) => moistureX <= targetX);
    const calledDry = all.findIndex(({ dry }) => dry);
    expect(reckonedDry).toBeGreaterThan(0);
    expect(calledDry).toBeGreaterThan(reckonedDry);
    for (const { dry, dryLatestMs, asOfMs } of all) expect(dry).toBe(dryLatestMs !== null && dryLatestMs <= asOfMs);
  });

  test('more wet things make the room damper, and without its machine it passes its cap', () => {
    const few = full(inputOf({ readings: [reading(0, 60)], ...many(5) }));
    const loaded = full(inputOf({ readings: [reading(0, 60)], ...many(200) }));
    const without = full(inputOf({ readings: [reading(0, 60)], ...many(200), machines: [] }));
    const ahead = (state: RoomState) => forecastRoom(state, { humidityCapPct: 75, weather: [] }, values);
    expect(ahead(loaded).peak.relativeHumidityPct).toBeGreaterThan(ahead(few).peak.relativeHumidityPct);
    expect(ahead(without).overCapMs).not.toBeNull();
    expect(ahead(without).peak.relativeHumidityPct).toBeGreaterThan(ahead(loaded).peak.relativeHumidityPct);
  });

  test('water left falls to nothing where all gets dry, and clocks only go forward', () => {
    const forecast = forecastRoom(full(inputOf({ readings: [reading(0, 50)], ...many(10) })), { humidityCapPct: 75, weather: [] }, values);
    expect(forecast.points).toHaveLength(72);
    expect(forecast.points.at(-1)!.atMs - forecast.fromMs).toBe(72 * HOUR_MS);
    expect(forecast.points.at(-1)!.waterKg).toBeLessThan(0.01);
    const water = forecast.points.map(({ waterKg }) => waterKg);
    expect(water).toEqual(water.toSorted((a, b) => b - a));
  });

  test('weather that is foreseen counts from its hour on', () => {
    const state = full(inputOf({ readings: [reading(0, 55)], machines: [] }));
    const muggy = forecastRoom(state, { humidityCapPct: 75, weather: [{ atMs: at(10), airTempC: 28, relativeHumidityPct: 95 }] }, values);
    const steady = forecastRoom(state, { humidityCapPct: 75, weather: [] }, values);
    expect(muggy.points[8]!.relativeHumidityPct).toBeCloseTo(steady.points[8]!.relativeHumidityPct, 9);
    expect(muggy.points[20]!.relativeHumidityPct).toBeGreaterThan(steady.points[20]!.relativeHumidityPct + 10);
  });
});
