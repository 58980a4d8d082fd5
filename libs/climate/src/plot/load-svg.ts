/** Use of a resource over time as an SVG 1.1 document (W3C): use as steps, what there is as a line, overload hatched. */
import { scaleLinear } from 'd3-scale';
import { drawEntries, drawTimeAxis, entriesHeight, hatch, type LegendEntry } from './chart-parts.js';
import type { LoadChart, LoadStep } from './chart-types.js';
import { INK, SIZE, timeScale, type ValueScale } from './frame.js';
import { drawNow } from './panel.js';
import { drawSheet } from './sheet.js';
import { element, rounded, words } from './svg.js';
import { BOLD, fitted } from './text-width.js';

const USED = { fill: '#cfdfeb', stroke: '#10456b' } as const;
const AVAILABLE = { stroke: '#1b1f24', dash: '7 4' } as const;
const HEIGHT = 240;

/** Draws a chart. Equal data give equal bytes; steps are cut at the ends of the time shown, and text of people cannot become markup. */
export function loadSvg(chart: LoadChart): string {
  const { x, ticks } = timeScale(chart);
  const steps = within(chart);
  const legend = legendOf(chart, steps);
  const above = 28 + entriesHeight(legend) + 16;
  return drawSheet(chart, above + HEIGHT + SIZE.axisHeight, (head) => {
    const top = head + above;
    const bottom = top + HEIGHT;
    const y = scaleLinear().domain([0, Math.max(1, ...steps.flatMap(({ used, available }) => [used, available]))]).nice(5).range([bottom, top]);
    return [
      words(fitted(chart.label, SIZE.width - SIZE.left, SIZE.text * BOLD), { x: SIZE.left, y: head + 20, 'font-weight': 'bold' }),
      drawEntries(legend, head + 28),
      drawLevels(y),
      drawTimeAxis(ticks, top, bottom),
      ...runsOf(steps).flatMap((run) => [drawUsed(run, x, y, bottom), ...run.map((step) => drawOver(step, x, y)), drawAvailable(run, x, y)]),
      ...(steps.length === 0 ? [words(chart.emptyLabel, { x: (SIZE.left + SIZE.width - SIZE.right) / 2, y: top + HEIGHT / 2, 'text-anchor': 'middle', fill: INK.faint })] : []),
      ...(chart.now && chart.now.atMs >= chart.fromMs && chart.now.atMs <= chart.toMs ? [drawNow(chart.now, { top, x }, bottom)] : []),
    ];
  });
}

/** No load here comes near; beyond it an axis would lose its ticks to rounding. Our own limit. */
const LARGEST = 1e9;

/** What of the steps lies in the time shown and can be drawn. */
function within({ steps, fromMs, toMs }: LoadChart): LoadStep[] {
  const isDrawable = (value: number): boolean => value >= 0 && value <= LARGEST;
  return steps
    .map((step) => ({ ...step, fromMs: Math.max(step.fromMs, fromMs), toMs: Math.min(step.toMs, toMs) }))
    .filter((step) => step.toMs > step.fromMs && isDrawable(step.used) && isDrawable(step.available));
}

/** Steps that touch: nothing is drawn across time that is not known. */
function runsOf(steps: readonly LoadStep[]): LoadStep[][] {
  const runs: LoadStep[][] = [];
  for (const step of steps) {
    if (runs.at(-1)?.at(-1)?.toMs === step.fromMs) runs.at(-1)!.push(step);
    else runs.push([step]);
  }
  return runs;
}

/** `H` and `V` alone: a load stays until it changes. */
function staircase(run: readonly LoadStep[], of: (step: LoadStep) => number, x: (atMs: number) => number, y: ValueScale): string {
  return `M${rounded(x(run[0]!.fromMs))} ${rounded(y(of(run[0]!)))}${run.map((step) => `V${rounded(y(of(step)))}H${rounded(x(step.toMs))}`).join('')}`;
}

function drawUsed(run: readonly LoadStep[], x: (atMs: number) => number, y: ValueScale, bottom: number): string {
  const line = staircase(run, ({ used }) => used, x, y);
  return element('path', { d: `${line}V${rounded(bottom)}H${rounded(x(run[0]!.fromMs))}Z`, fill: USED.fill }) + element('path', { d: line, fill: 'none', stroke: USED.stroke, 'stroke-width': 2 });
}

function drawAvailable(run: readonly LoadStep[], x: (atMs: number) => number, y: ValueScale): string {
  return element('path', { d: staircase(run, ({ available }) => available, x, y), fill: 'none', stroke: AVAILABLE.stroke, 'stroke-width': 1.8, 'stroke-dasharray': AVAILABLE.dash });
}

function drawOver({ fromMs, toMs, used, available }: LoadStep, x: (atMs: number) => number, y: ValueScale): string {
  return used <= available ? '' : overBox(x(fromMs), y(used), x(toMs) - x(fromMs), y(available) - y(used));
}

function overBox(x: number, y: number, width: number, height: number): string {
  return element('g', {}, element('rect', { x, y, width, height, fill: '#ffffff', stroke: INK.limit, 'stroke-width': 1.2 }), hatch(x, y, width, height, INK.limit));
}

function drawLevels(y: ValueScale): string {
  const format = y.tickFormat(5);
  return element('g', {}, ...y.ticks(5).flatMap((tick) => [
    element('line', { x1: SIZE.left, x2: SIZE.width - SIZE.right, y1: y(tick), y2: y(tick), stroke: INK.grid }),
    words(format(tick), { x: SIZE.left - 8, y: y(tick) + 4, 'text-anchor': 'end' }),
  ]));
}

function legendOf({ legend }: LoadChart, steps: readonly LoadStep[]): LegendEntry[] {
  const lineAt = (x: number, y: number, width: number, look: Record<string, string | number>) => element('line', { x1: x, x2: x + width, y1: y, y2: y, ...look });
  const over: LegendEntry = { label: legend.over, sample: overBox };
  return [
    { label: legend.used, sample: (x, y, width, height) => element('rect', { x, y, width, height, fill: USED.fill }) + lineAt(x, y, width, { stroke: USED.stroke, 'stroke-width': 2 }) },
    { label: legend.available, sample: (x, y, width, height) => lineAt(x, y + height / 2, width, { stroke: AVAILABLE.stroke, 'stroke-width': 1.8, 'stroke-dasharray': AVAILABLE.dash }) },
    ...(steps.some(({ used, available }) => used > available) ? [over] : []),
  ];
}
