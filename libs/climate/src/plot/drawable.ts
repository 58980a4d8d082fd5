/** What of the data can be drawn: points inside the time shown, with numbers that an axis can hold. */
import type { Plot, PlotPoint } from './types.js';

/** No quantity here comes near; beyond it an axis would lose its ticks to rounding. Our own limit. */
const LARGEST = 1e9;

/** The plot without points outside its time or beyond all measure; the ends of a band are kept inside it. */
export function drawable(plot: Plot): Plot {
  const panels = plot.panels.map((panel) => ({
    ...panel,
    limits: (panel.limits ?? []).filter(({ value }) => isDrawable(value)),
    series: panel.series.map((series) => ({ ...series, points: series.points.filter(({ atMs, value }) => atMs >= plot.fromMs && atMs <= plot.toMs && isDrawable(value)).map(withEnds) })),
  }));
  return { ...plot, panels };
}

function isDrawable(value: number): boolean {
  return Math.abs(value) <= LARGEST;
}

function withEnds({ atMs, value, low, high }: PlotPoint): PlotPoint {
  return { atMs, value, ...(low === undefined || Number.isNaN(low) ? {} : { low: Math.max(-LARGEST, Math.min(LARGEST, low)) }), ...(high === undefined || Number.isNaN(high) ? {} : { high: Math.max(-LARGEST, Math.min(LARGEST, high)) }) };
}
