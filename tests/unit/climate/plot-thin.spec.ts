import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { thinPoints, type PlotPoint } from '#climate';

const manyPoints = (minLength: number) => fc.array(fc.record({ stepMs: fc.integer({ min: 1, max: 1000 }), value: fc.double({ min: -50, max: 150, noNaN: true }), up: fc.double({ min: 0, max: 20, noNaN: true }) }), { minLength, maxLength: minLength + 300, size: 'max' }).map((steps) => {
  let atMs = 0;
  return steps.map(({ stepMs, value, up }): PlotPoint => ({ atMs: (atMs += stepMs), value, low: value - up, high: value + 2 * up }));
});
const highest = (points: readonly PlotPoint[], of: (point: PlotPoint) => number): number => points.reduce((most, point) => Math.max(most, of(point)), -Infinity);

describe('thinned points', () => {
  test('are a part of the given ones in their order, and a bounded number', () => {
    fc.assert(fc.property(manyPoints(0), fc.integer({ min: 2, max: 40 }), (points, stretches) => {
      const kept = thinPoints(points, stretches);
      let from = -1;
      for (const point of kept) {
        const found = points.indexOf(point, from + 1);
        expect(found).toBeGreaterThan(from);
        from = found;
      }
      // The last point lies on the edge of a stretch of its own.
      expect(kept.length).toBeLessThanOrEqual(6 * (stretches + 1));
      if (points.length <= 4 * stretches) expect(kept).toEqual(points);
    }));
  });

  test('hide no peak and no valley, of values as of bands, over the whole and within any quarter of it', () => {
    fc.assert(fc.property(manyPoints(41), (points) => {
      const stretches = 8;
      const kept = thinPoints(points, stretches);
      const [fromMs, toMs] = [points[0]!.atMs, points.at(-1)!.atMs];
      const within = (list: readonly PlotPoint[], quarter: number) => list.filter(({ atMs }) => Math.min(stretches - 1, Math.floor(((atMs - fromMs) / (toMs - fromMs)) * stretches)) >> 1 === quarter);
      for (const by of [(p: PlotPoint) => p.value, (p: PlotPoint) => -p.value, (p: PlotPoint) => p.high!, (p: PlotPoint) => -p.low!]) {
        expect(highest(kept, by)).toBe(highest(points, by));
        for (const quarter of [0, 1, 2, 3]) expect(highest(within(kept, quarter), by)).toBe(highest(within(points, quarter), by));
      }
    }));
  });

  test('a pause that is longer than a stretch stays as long as it was', () => {
    fc.assert(fc.property(manyPoints(61), fc.integer({ min: 1, max: 58 }), (points, at) => {
      const spanMs = points.at(-1)!.atMs;
      const paused = points.map((point, index) => (index >= at ? { ...point, atMs: point.atMs + spanMs } : point));
      const kept = thinPoints(paused, 10);
      const index = kept.findIndex((point) => point.atMs >= paused[at]!.atMs);
      expect([kept[index - 1], kept[index]]).toEqual([paused[at - 1], paused[at]]);
    }));
  });

  test('none and one stay as they are', () => {
    expect(thinPoints([])).toEqual([]);
    expect(thinPoints([{ atMs: 5, value: 1 }], 1)).toEqual([{ atMs: 5, value: 1 }]);
  });
});
