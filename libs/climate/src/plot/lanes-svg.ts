/** Rows of work over time as an SVG 1.1 document (W3C): one row for each place of a station. */
import { BAR_LOOKS, type Bar, type BarLook, type LaneChart } from './chart-types.js';
import { drawEntries, drawTimeAxis, entriesHeight, hatch, type LegendEntry } from './chart-parts.js';
import { INK, SIZE, timeScale } from './frame.js';
import { drawNow } from './panel.js';
import { drawSheet } from './sheet.js';
import { element, escaped, rounded, words } from './svg.js';
import { BOLD, fitted, widthOf } from './text-width.js';

/** Pixels. A row holds two lines of small text. */
const ROW = { height: 40, pad: 3, text: 10, line: 13, inset: 3 } as const;
/** Bars named below the chart. Own choice: a page in print. */
const NAMED_AT_MOST = 40;
const SHADE = '#e9ecef';
const LOOKS: Readonly<Record<BarLook, { fill: string; stroke: string; width: number; dash: string; hatch: string | null }>> = {
  planned: { fill: '#ffffff', stroke: '#10456b', width: 1.2, dash: 'none', hatch: null },
  'in-work': { fill: '#d3e3ef', stroke: '#10456b', width: 3, dash: 'none', hatch: null },
  done: { fill: '#eef0f2', stroke: '#5a6068', width: 1.2, dash: 'none', hatch: null },
  late: { fill: '#ffffff', stroke: '#8a1c3b', width: 1.6, dash: '6 3', hatch: '#e6c3cd' },
  dropped: { fill: '#ffffff', stroke: '#5a6068', width: 1, dash: '2 3', hatch: null },
};

interface Box { bar: Bar; x: number; y: number; width: number; height: number }
/** A bar with the number under which it is told below; null where its own lines fit, or where not even a number does. */
interface Labelled extends Box { lines: readonly string[]; number: number | null }

/** Draws a chart. Equal data give equal bytes; bars are cut at the ends of the time shown, and text of people cannot become markup. */
export function lanesSvg(chart: LaneChart): string {
  const { x, ticks } = timeScale(chart);
  const legend = legendOf(chart);
  const above = 28 + entriesHeight(legend) + 12;
  const rows = Math.max(1, chart.lanes.length) * ROW.height;
  const labelled = labelsOf(boxesOf(chart, x));
  return drawSheet({ ...chart, notes: [...toldBelow(labelled, chart), ...chart.notes] }, above + rows + SIZE.axisHeight, (head) => {
    const top = head + above;
    return [
      words(fitted(chart.label, SIZE.width - SIZE.left, SIZE.text * BOLD), { x: SIZE.left, y: head + 20, 'font-weight': 'bold' }),
      drawEntries(legend, head + 28),
      ...chart.shaded.map((span) => drawShade(span, chart, x, top, rows)),
      ...chart.lanes.map((name, lane) => drawLane(name, top + lane * ROW.height)),
      drawTimeAxis(ticks, top, top + rows),
      ...labelled.map((box) => drawBar(box, top)),
      ...(labelled.length === 0 ? [words(chart.emptyLabel, { x: (SIZE.left + SIZE.width - SIZE.right) / 2, y: top + ROW.height / 2 + 4, 'text-anchor': 'middle', fill: INK.faint })] : []),
      ...(chart.now && chart.now.atMs >= chart.fromMs && chart.now.atMs <= chart.toMs ? [drawNow(chart.now, { top, x }, top + rows)] : []),
      // Above the line of the present moment, which would strike words out.
      ...labelled.map((box) => drawLines(box, top)),
    ];
  });
}

/** Where bars stand, from the top of the rows; those outside the time shown or the rows are left out. */
function boxesOf({ bars, fromMs, toMs, lanes }: LaneChart, x: (atMs: number) => number): Box[] {
  return bars
    .filter((bar) => bar.fromMs < toMs && bar.toMs > fromMs && bar.toMs > bar.fromMs && bar.lane >= 0 && bar.lane < lanes.length)
    .map((bar) => {
      const left = x(Math.max(bar.fromMs, fromMs));
      return { bar, x: left, y: bar.lane * ROW.height + ROW.pad, width: x(Math.min(bar.toMs, toMs)) - left, height: ROW.height - 2 * ROW.pad };
    })
    .sort((a, b) => a.bar.fromMs - b.bar.fromMs || a.bar.lane - b.bar.lane);
}

/** Its own lines where all of them fit, else a number, in order of time. */
function labelsOf(boxes: readonly Box[]): Labelled[] {
  let count = 0;
  return boxes.map((box) => {
    const room = box.width - 2 * ROW.inset - (box.bar.look === 'done' ? TICK : 0);
    if (box.bar.lines.every((line) => widthOf(line, ROW.text) <= room)) return { ...box, lines: box.bar.lines, number: null };
    if (count >= NAMED_AT_MOST || widthOf(String(count + 1), ROW.text) > box.width - 2) return { ...box, lines: [], number: null };
    count += 1;
    return { ...box, lines: [String(count)], number: count };
  });
}
const TICK = 12;

function toldBelow(labelled: readonly Labelled[], { unnamed }: LaneChart): string[] {
  const without = labelled.filter(({ lines }) => lines.length === 0).length;
  return [...labelled.flatMap(({ number, bar }) => (number === null ? [] : [`${number}: ${bar.told}`])), ...(without === 0 ? [] : [unnamed(without)])];
}

function drawLane(name: string, y: number): string {
  return element('g', {},
    words(fitted(name, SIZE.left - 12), { x: SIZE.left - 8, y: y + ROW.height / 2 + 4, 'text-anchor': 'end' }),
    element('line', { x1: SIZE.left, x2: SIZE.width - SIZE.right, y1: y + ROW.height, y2: y + ROW.height, stroke: INK.grid }),
  );
}

function drawShade(span: { fromMs: number; toMs: number }, { fromMs, toMs }: LaneChart, x: (atMs: number) => number, y: number, height: number): string {
  const [from, to] = [Math.max(span.fromMs, fromMs), Math.min(span.toMs, toMs)];
  return to <= from ? '' : element('rect', { x: x(from), y, width: x(to) - x(from), height, fill: SHADE });
}

/** The title inside a group is shown when it is pointed at (SVG 1.1, section 5.4). */
function drawBar({ bar, x, y, width, height }: Labelled, top: number): string {
  return element('g', {}, element('title', {}, escaped(bar.told)), drawBox(bar.look, x, top + y, width, height));
}

/** The words of a bar let what points at them through to the bar. */
function drawLines({ x, y, width, height, lines }: Labelled, top: number): string {
  const middle = top + y + height / 2 + 4 - ((lines.length - 1) * ROW.line) / 2;
  return element('g', { 'pointer-events': 'none' },
    ...lines.map((line, index) => words(line, { x: x + width / 2, y: middle + index * ROW.line, 'font-size': ROW.text, 'text-anchor': 'middle' })),
  );
}

/** The outline lies inside the box, so that neighbours stay apart. */
function drawBox(look: BarLook, x: number, y: number, width: number, height: number): string {
  const { fill, stroke, width: line, dash, hatch: strokes } = LOOKS[look];
  const inset = Math.min(line / 2, width / 2);
  const box = element('rect', { x: x + inset, y: y + inset, width: Math.max(0, width - 2 * inset), height: height - 2 * inset, fill, stroke, 'stroke-width': line, ...(dash === 'none' ? {} : { 'stroke-dasharray': dash }) });
  const marks = strokes === null ? '' : hatch(x + line, y + line, Math.max(0, width - 2 * line), height - 2 * line, strokes);
  const tick = look === 'done' && width > 2 * TICK ? element('path', { d: `M${rounded(x + width - 11)} ${rounded(y + 7)}l3 3l5 -6`, fill: 'none', stroke, 'stroke-width': 1.6 }) : '';
  return box + marks + tick;
}

function legendOf({ legend, shaded }: LaneChart): LegendEntry[] {
  const looks = BAR_LOOKS.map((look): LegendEntry => ({ label: legend[look], sample: (x, y, width, height) => drawBox(look, x, y, width, height) }));
  const shade: LegendEntry = { label: legend.shaded, sample: (x, y, width, height) => element('rect', { x, y, width, height, fill: SHADE }) };
  return shaded.length === 0 ? looks : [...looks, shade];
}
