/**
 * What a plot shows, as plain data. The caller brings every word in the reader's language; the plot brings scale, axes and
 * marks. Published: nothing. Layout, dashes and colours are our own.
 */

/** A value at a moment, with the ends of its band where the value is uncertain. */
export interface PlotPoint {
  /** Epoch milliseconds. */
  atMs: number;
  value: number;
  low?: number;
  high?: number;
}

/**
 * How a line is drawn, never by colour alone: `measured` solid with a mark on each reading, `reckoned` solid without marks,
 * `forecast` dashed, `weighed` crosses and `doubted` hollow rings without a line. Several of a style in one panel have marks or
 * dashes of their own.
 */
export const PLOT_STYLES = ['measured', 'reckoned', 'forecast', 'weighed', 'doubted'] as const;
export type PlotStyle = (typeof PLOT_STYLES)[number];

export interface PlotSeries {
  label: string;
  style: PlotStyle;
  /** In order of time. */
  points: readonly PlotPoint[];
  /** A longer pause between two points leaves the line open: nobody measured there. */
  longestGapMs?: number;
  /** Said of the band in the legend; a series whose points have ends must have it. */
  bandLabel?: string;
  /** It does not widen the axis: what lies outside stands at its edge. For what is not believed. */
  atEdge?: boolean;
}

/** A level that must not be passed, drawn across the panel and named. */
export interface PlotLimit {
  label: string;
  value: number;
}

/** One set of axes. Panels stand below each other and share the time axis. */
export interface PlotPanel {
  /** With its unit: `Relative humidity, %`. */
  label: string;
  series: readonly PlotSeries[];
  limits?: readonly PlotLimit[];
  /** Shown at least; values outside widen it. */
  atLeast?: readonly [number, number];
  /** Values below or above this cannot be (a humidity over 100 %): the axis never goes there. */
  within?: readonly [number, number];
}

/** The clock on the wall there. Time zones and the names of months are the caller's business. */
export interface PlotClock {
  /** How far the clock is ahead of UTC at a moment, ms. */
  offsetMs: (atMs: number) => number;
  /** The day that begins at a midnight: `9 May`. */
  day: (atMs: number) => string;
}

export interface Plot {
  title: string;
  /** What the plot says, for those who cannot see it. */
  description: string;
  language: string;
  fromMs: number;
  toMs: number;
  clock: PlotClock;
  /** Under the time axis, with the zone. */
  timeLabel: string;
  /** A line at the present moment: left of it is history, right of it forecast. */
  now?: { atMs: number; label: string };
  /** Said when a panel has nothing to show. */
  emptyLabel: string;
  panels: readonly PlotPanel[];
  /** Lines under the plot: what is measured, what is reckoned, what is our own calibration. */
  notes: readonly string[];
}
