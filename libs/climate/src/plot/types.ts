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
 * How a line is drawn, never by colour alone: `measured` solid with a dot on each reading, `reckoned` solid without dots,
 * `forecast` dashed, `weighed` crosses without a line.
 */
export const PLOT_STYLES = ['measured', 'reckoned', 'forecast', 'weighed'] as const;
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

export interface Plot {
  title: string;
  /** What the plot says, for those who cannot see it. */
  description: string;
  language: string;
  fromMs: number;
  toMs: number;
  /** IANA name of the zone of the time axis; said beside it. */
  timeZone: string;
  timeLabel: string;
  /** A line at the present moment: left of it is history, right of it forecast. */
  now?: { atMs: number; label: string };
  /** Said when a panel has nothing to show. */
  emptyLabel: string;
  panels: readonly PlotPanel[];
  /** Lines under the plot: what is measured, what is reckoned, what is our own calibration. */
  notes: readonly string[];
}
