/** Sizes, scales and signs that all panels share. Our own layout. */
import { scaleLinear, scaleUtc, type ScaleLinear, type ScaleTime } from 'd3-scale';
import type { Plot, PlotPanel, PlotStyle } from './types.js';

/** Pixels. Text of 13 px is read on a tablet at arm's length when the plot fills its width. */
export const SIZE = { width: 880, left: 64, right: 24, titleHeight: 44, panelHeight: 190, axisHeight: 46, lineHeight: 18, text: 13, title: 17 } as const;

/** Ink on paper, dark enough for 7:1 on white; the dash and the mark tell lines apart, the colour only helps. */
export const INK = { text: '#1b1f24', faint: '#5a6068', grid: '#dfe3e8', limit: '#8a1c3b', now: '#1b1f24' } as const;
const LINES = ['#10456b', '#6b3a00', '#2f5a1f', '#5b2a6e'] as const;

/** Dashes of forecasts, so that several in one panel are told apart without colour. */
const DASHES = ['7 4', '13 3 2 3', '3 3'] as const;

/** How one series of a panel looks. */
export interface Look {
  style: PlotStyle;
  colour: string;
  /** `null`: no line. */
  dash: string | null;
  /** Which of its style in the panel it is, from 0. */
  nth: number;
}

/** The looks of all series of a panel. */
export function looksOf({ series }: PlotPanel): Look[] {
  return series.map(({ style }, index) => {
    const nth = series.slice(0, index).filter((other) => other.style === style).length;
    const line = style === 'forecast' ? DASHES[nth % DASHES.length]! : 'none';
    return { style, nth, colour: LINES[index % LINES.length]!, dash: style === 'weighed' || style === 'doubted' ? null : line };
  });
}

export type TimeScale = ScaleTime<number, number>;
export type ValueScale = ScaleLinear<number, number>;

/**
 * Time across the plot. The scale runs in the local time of the place, so that its ticks fall on hours that a clock on
 * the wall shows; after a change of summer time inside the plot they fall beside the hour, and their labels stay right.
 */
export function timeScale({ fromMs, toMs, clock }: Pick<Plot, 'fromMs' | 'toMs' | 'clock'>): { x: (atMs: number) => number; ticks: { x: number; label: string }[] } {
  const shift = clock.offsetMs(fromMs);
  const end = toMs > fromMs ? toMs : fromMs + 3_600_000;
  const scale: TimeScale = scaleUtc().domain([fromMs + shift, end + shift]).range([SIZE.left, SIZE.width - SIZE.right]);
  const label = (atMs: number): string => {
    const wall = new Date(atMs + clock.offsetMs(atMs)).toISOString().slice(11, 16);
    return wall === '00:00' ? clock.day(atMs) : wall;
  };
  return { x: (atMs) => scale(atMs + shift), ticks: scale.ticks(8).map((tick) => ({ x: scale(tick), label: label(tick.getTime() - shift) })) };
}

/** Values that differ by less are one value: no quantity here is told so finely, and an axis would lose its ticks to rounding. Our own limit. */
const LEAST_SPAN = 1e-6;

/** Values up the panel: all that is drawn, the limits, and what is to be shown at least, ended on round numbers. */
export function valueScale(panel: PlotPanel, top: number): ValueScale {
  const drawn = panel.series.filter(({ atEdge }) => atEdge !== true).flatMap(({ points }) => points.flatMap(({ value, low, high }) => [value, low ?? value, high ?? value]));
  const all = [...drawn, ...(panel.limits ?? []).map(({ value }) => value), ...(panel.atLeast ?? [])];
  let low = all.reduce((least, value) => Math.min(least, value), Infinity);
  let high = all.reduce((most, value) => Math.max(most, value), -Infinity);
  if (all.length === 0) [low, high] = [0, 1];
  if (high - low < LEAST_SPAN) [low, high] = [low - 1, high + 1];
  const scale = scaleLinear().domain([low, high]).nice(5).range([top + SIZE.panelHeight, top]).clamp(true);
  const [from, to] = scale.domain() as [number, number];
  return panel.within ? scale.domain([Math.max(from, panel.within[0]), Math.min(to, panel.within[1])]) : scale;
}
