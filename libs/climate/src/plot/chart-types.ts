/** What charts of work and of loads show, as plain data. Words come from the caller in the reader's language. Layout, hatches and colours are our own. */
import type { PlotClock } from './types.js';
import type { SheetWords } from './sheet.js';

/** Time across a chart. */
export interface ChartTime {
  fromMs: number;
  toMs: number;
  clock: PlotClock;
  /** A line at the present moment, when it lies in the time shown. */
  now?: { atMs: number; label: string };
}

/** How work stands; told apart by outline, hatch and mark, never by colour alone. */
export const BAR_LOOKS = ['planned', 'in-work', 'done', 'late', 'dropped'] as const;
export type BarLook = (typeof BAR_LOOKS)[number];

/** One piece of work, or several things that are done together. */
export interface Bar {
  /** Row, from 0. Bars of one row must not overlap. */
  lane: number;
  fromMs: number;
  toMs: number;
  look: BarLook;
  /** At most two short lines inside the bar, such as its tag and its step. */
  lines: readonly string[];
  /** All of it in one line: shown when pointed at, and below the chart for bars that are too short for their lines. */
  told: string;
}

/** Rows of bars over time. */
export interface LaneChart extends SheetWords, ChartTime {
  /** Above the rows: `Places of the station`. */
  label: string;
  /** Names of the rows, a few letters each; one row is drawn for each. */
  lanes: readonly string[];
  bars: readonly Bar[];
  /** Stretches shaded over all rows: closed hours. */
  shaded: readonly { fromMs: number; toMs: number }[];
  /** What the looks and the shade are called. */
  legend: Readonly<Record<BarLook | 'shaded', string>>;
  /** Said when there are no bars. */
  emptyLabel: string;
  /** Says how many bars stand without a name because they are too short or too many. */
  unnamed: (count: number) => string;
}

/** A stretch of time with the same load. */
export interface LoadStep {
  fromMs: number;
  toMs: number;
  used: number;
  available: number;
}

/** Use of one resource over time against what there is. */
export interface LoadChart extends SheetWords, ChartTime {
  /** With its unit: `Drying area in use, m²`. */
  label: string;
  /** In order of time, without overlaps; time that no step covers is left empty: nothing is known of it. */
  steps: readonly LoadStep[];
  legend: { used: string; available: string; over: string };
  emptyLabel: string;
}
