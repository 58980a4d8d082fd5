/** One panel: axes, limits, bands, lines, marks and its legend. */
import { area, line } from 'd3-shape';
import { INK, looksOf, SIZE, valueScale, type Look, type ValueScale } from './frame.js';
import { drawLegend, legendHeight } from './legend.js';
import { drawMark } from './mark.js';
import { element, words } from './svg.js';
import type { Plot, PlotPanel, PlotPoint, PlotSeries } from './types.js';

/** Where a panel stands and what time is across it. */
export interface PanelFrame {
  top: number;
  x: (atMs: number) => number;
  ticks: readonly { x: number; label: string }[];
}

/** What a panel takes from the top of its label to the foot of its time axis, and where its axes begin in it. */
export function panelSpace(panel: PlotPanel): { above: number; height: number } {
  const above = legendHeight(panel) + 28;
  return { above, height: above + SIZE.panelHeight + SIZE.axisHeight };
}

/** A panel with its label and legend above the axes. */
export function drawPanel(plot: Plot, panel: PlotPanel, frame: PanelFrame): string {
  const y = valueScale(panel, frame.top);
  const looks = looksOf(panel);
  const nothing = panel.series.every(({ points }) => points.length === 0);
  return element('g', {},
    words(panel.label, { x: SIZE.left, y: frame.top - legendHeight(panel) - 8, 'font-weight': 'bold' }),
    drawLegend(panel, frame.top),
    drawAxes(y, frame),
    ...panel.series.map((series, index) => drawBand(series, looks[index]!, frame.x, y)),
    ...(panel.limits ?? []).map(({ value }) => element('line', { x1: SIZE.left, x2: SIZE.width - SIZE.right, y1: y(value), y2: y(value), stroke: INK.limit, 'stroke-width': 1.5, 'stroke-dasharray': '2 3' })),
    ...panel.series.map((series, index) => drawSeries(series, looks[index]!, frame.x, y)),
    ...(nothing ? [words(plot.emptyLabel, { x: (SIZE.left + SIZE.width - SIZE.right) / 2, y: frame.top + SIZE.panelHeight / 2, 'text-anchor': 'middle', fill: INK.faint })] : []),
    ...(plot.now ? [drawNow(plot.now, frame)] : []),
  );
}

function drawAxes(y: ValueScale, frame: PanelFrame): string {
  const [left, right, bottom] = [SIZE.left, SIZE.width - SIZE.right, frame.top + SIZE.panelHeight];
  const format = y.tickFormat(5);
  return element('g', {},
    ...y.ticks(5).flatMap((tick) => [
      element('line', { x1: left, x2: right, y1: y(tick), y2: y(tick), stroke: INK.grid }),
      words(format(tick), { x: left - 8, y: y(tick) + 4, 'text-anchor': 'end' }),
    ]),
    ...frame.ticks.flatMap(({ x, label }) => [
      element('line', { x1: x, x2: x, y1: bottom, y2: bottom + 5, stroke: INK.text }),
      words(label, { x, y: bottom + 19, 'text-anchor': 'middle' }),
    ]),
    element('path', { d: `M${left} ${frame.top}V${bottom}H${right}`, fill: 'none', stroke: INK.text }),
  );
}

/** Points without a gap between them: a line is never drawn where nobody measured. */
export function stretches(series: Pick<PlotSeries, 'points' | 'longestGapMs'>): PlotPoint[][] {
  const parts: PlotPoint[][] = [];
  for (const point of series.points) {
    const last = parts.at(-1)?.at(-1);
    if (last === undefined || point.atMs - last.atMs > (series.longestGapMs ?? Infinity)) parts.push([]);
    parts.at(-1)!.push(point);
  }
  return parts;
}

function drawBand(series: PlotSeries, { colour }: Look, x: (atMs: number) => number, y: ValueScale): string {
  if (series.points.every(({ low, high }) => low === undefined && high === undefined)) return '';
  const shape = area<PlotPoint>().x(({ atMs }) => x(atMs)).y0(({ low, value }) => y(low ?? value)).y1(({ high, value }) => y(high ?? value)).digits(1);
  return stretches(series).map((part) => element('path', { d: shape(part) ?? '', fill: colour, 'fill-opacity': '0.16' })).join('');
}

/** More marks than this over the width of a plot run together unless they are smaller. */
const CROWDED = 150;

function drawSeries(series: PlotSeries, look: Look, x: (atMs: number) => number, y: ValueScale): string {
  const path = line<PlotPoint>().x(({ atMs }) => x(atMs)).y(({ value }) => y(value)).digits(1);
  const { colour, dash } = look;
  const lines = dash === null ? [] : stretches(series).map((part) => element('path', { d: path(part) ?? '', fill: 'none', stroke: colour, 'stroke-width': 2, 'stroke-dasharray': dash }));
  const size = series.style === 'measured' && series.points.length > CROWDED ? 0.55 : 1;
  const marks = series.points.map((point) => drawMark(look, x(point.atMs), y(point.value), size));
  return element('g', {}, [...lines, ...marks].join(''));
}

/** Its words stand below the axis, where no line can cross them. */
export function drawNow(now: NonNullable<Plot['now']>, frame: Pick<PanelFrame, 'top' | 'x'>, bottom = frame.top + SIZE.panelHeight): string {
  const x = frame.x(now.atMs);
  const anchor = x > SIZE.width - NOW_WIDTH ? 'end' : x < NOW_WIDTH ? 'start' : 'middle';
  return element('g', {},
    element('line', { x1: x, x2: x, y1: frame.top, y2: bottom + 6, stroke: INK.now, 'stroke-width': 1.2 }),
    words(now.label, { x, y: bottom + 38, 'text-anchor': anchor, fill: INK.faint }),
  );
}

/** Half of the longest words at the present moment, with a margin, in pixels. */
const NOW_WIDTH = 130;
