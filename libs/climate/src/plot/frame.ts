/** Sizes, scales and signs that all panels share. Our own layout. */
import { scaleLinear, scaleUtc, type ScaleLinear, type ScaleTime } from 'd3-scale';
import type { Plot, PlotPanel, PlotStyle } from './types.js';

/** Pixels. Text of 13 px is read on a tablet at arm's length when the plot fills its width. */
export const SIZE = { width: 880, left: 64, right: 24, titleHeight: 44, panelHeight: 190, axisHeight: 44, lineHeight: 18, text: 13, title: 17 } as const;

/** Ink on paper, dark enough for 7:1 on white; the dash and the mark tell lines apart, the colour only helps. */
export const INK = { text: '#1b1f24', faint: '#5a6068', grid: '#dfe3e8', limit: '#8a1c3b', now: '#1b1f24' } as const;
const LINES = ['#10456b', '#6b3a00', '#2f5a1f', '#5b2a6e'] as const;

/** Dashes by style; `weighed` has no line. */
export const DASHES: Readonly<Record<PlotStyle, string>> = { measured: 'none', reckoned: 'none', forecast: '7 4', weighed: 'none' };

export function lineColour(index: number): string {
  return LINES[index % LINES.length]!;
}

export type TimeScale = ScaleTime<number, number>;
export type ValueScale = ScaleLinear<number, number>;

/**
 * Time across the plot. The scale runs in the local time of the place, so that its ticks fall on hours that a clock on
 * the wall shows; after a change of summer time inside the plot they fall beside the hour, and their labels stay right.
 */
export function timeScale(plot: Plot): { x: (atMs: number) => number; ticks: { x: number; label: string }[] } {
  const shift = offsetMs(plot.timeZone, plot.fromMs);
  const end = plot.toMs > plot.fromMs ? plot.toMs : plot.fromMs + 3_600_000;
  const scale: TimeScale = scaleUtc().domain([plot.fromMs + shift, end + shift]).range([SIZE.left, SIZE.width - SIZE.right]);
  const label = tickLabel(plot);
  const ticks = scale.ticks(8).map((tick) => ({ x: scale(tick), label: label(tick.getTime() - shift) }));
  return { x: (atMs) => scale(atMs + shift), ticks };
}

/** Hour and minute; at midnight the day. */
function tickLabel(plot: Plot): (atMs: number) => string {
  const format = (options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(plot.language, { timeZone: plot.timeZone, hourCycle: 'h23', ...options });
  const hour = format({ hour: '2-digit', minute: '2-digit' });
  const day = format({ day: 'numeric', month: 'short' });
  return (atMs) => (hour.format(atMs) === '00:00' ? day.format(atMs) : hour.format(atMs));
}

/** How far the wall clock of a zone is ahead of UTC at a moment. */
export function offsetMs(timeZone: string, atMs: number): number {
  const parts = new Intl.DateTimeFormat('en-US', { timeZone, hourCycle: 'h23', year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric', second: 'numeric' }).formatToParts(atMs);
  const part = (type: string) => Number(parts.find((one) => one.type === type)?.value);
  const wall = Date.UTC(part('year'), part('month') - 1, part('day'), part('hour'), part('minute'), part('second'));
  return wall - Math.floor(atMs / 1000) * 1000;
}

/** Values up the panel: all that is drawn, the limits, and what is to be shown at least, ended on round numbers. */
export function valueScale(panel: PlotPanel, top: number): ValueScale {
  const drawn = panel.series.flatMap(({ points }) => points.flatMap(({ value, low, high }) => [value, low ?? value, high ?? value]));
  const all = [...drawn, ...(panel.limits ?? []).map(({ value }) => value), ...(panel.atLeast ?? [])];
  let low = all.reduce((least, value) => Math.min(least, value), Infinity);
  let high = all.reduce((most, value) => Math.max(most, value), -Infinity);
  if (all.length === 0) [low, high] = [0, 1];
  if (low === high) [low, high] = [low - 1, high + 1];
  const scale = scaleLinear().domain([low, high]).nice(5).range([top + SIZE.panelHeight, top]).clamp(true);
  const [from, to] = scale.domain() as [number, number];
  return panel.within ? scale.domain([Math.max(from, panel.within[0]), Math.min(to, panel.within[1])]) : scale;
}
