/**
 * Fewer points for the same picture. Of each stretch of time the first, the last, the lowest and the highest point stay, so no peak
 * and no gap between stretches is lost: the M4 aggregation (Jugel et al., M4: A Visualization-Oriented Time Series Data
 * Aggregation, Proceedings of the VLDB Endowment 7, 2014; from memory). Ours: the ends of bands count as well.
 */
import type { PlotPoint } from './types.js';

/** Stretches over all of the points. Own choice: 100 over the width of a plot are finer than the eye; at most 600 points stay. */
const STRETCHES = 100;

/**
 * Points in order of time, thinned. What stays is a part of what was given, in its order. A pause in which nobody measured stays
 * a pause as long as it is longer than a stretch.
 */
export function thinPoints(points: readonly PlotPoint[], stretches: number = STRETCHES): PlotPoint[] {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || points.length <= 4 * stretches) return [...points];
  const width = (last.atMs - first.atMs) / stretches;
  const kept = new Set<PlotPoint>();
  for (let from = 0; from < points.length; ) {
    const cell = Math.floor((points[from]!.atMs - first.atMs) / width);
    let to = from + 1;
    while (to < points.length && Math.floor((points[to]!.atMs - first.atMs) / width) === cell) to += 1;
    for (const point of tellingOf(points.slice(from, to))) kept.add(point);
    from = to;
  }
  return points.filter((point) => kept.has(point));
}

/** First, last, and who holds the lowest and highest value and end of band. */
function tellingOf(part: readonly PlotPoint[]): PlotPoint[] {
  const least = (of: (point: PlotPoint) => number): PlotPoint => part.reduce((best, point) => (of(point) < of(best) ? point : best));
  return [part[0]!, part.at(-1)!, least(({ value }) => value), least(({ value }) => -value), least(({ low, value }) => low ?? value), least(({ high, value }) => -(high ?? value))];
}
