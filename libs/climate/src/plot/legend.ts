/** What each line, band and limit of a panel means, in rows above its axes. */
import { INK, looksOf, SIZE } from './frame.js';
import { drawMark } from './mark.js';
import { element, words } from './svg.js';
import type { PlotPanel } from './types.js';

/** Average advance of a letter at the text size, generous so that entries do not meet. From trying, with DejaVu Sans. */
const LETTER_WIDTH = 7.6;
const SAMPLE_WIDTH = 30;
const SAMPLE_GAP = 6;
const ENTRY_GAP = 16;

interface Entry {
  label: string;
  sample: (x: number, y: number) => string;
}

/** Pixels that the rows of the legend take. */
export function legendHeight(panel: PlotPanel): number {
  return rowsOf(panel).length * SIZE.lineHeight;
}

/** The legend, its last row just above `top`. */
export function drawLegend(panel: PlotPanel, top: number): string {
  const rows = rowsOf(panel);
  return element('g', {}, rows.map((row, index) => drawRow(row, top - 10 - (rows.length - 1 - index) * SIZE.lineHeight)).join(''));
}

function drawRow(row: readonly Entry[], y: number): string {
  let x: number = SIZE.left;
  return row.map((entry) => {
    const drawn = entry.sample(x, y) + words(entry.label, { x: x + SAMPLE_WIDTH + SAMPLE_GAP, y: y + 4 });
    x += widthOf(entry);
    return drawn;
  }).join('');
}

/** Entries broken into rows that fit the width; one that is longer than the width has a row of its own. */
function rowsOf(panel: PlotPanel): Entry[][] {
  const room = SIZE.width - SIZE.left - SIZE.right;
  const rows: Entry[][] = [];
  let used = Infinity;
  for (const entry of entriesOf(panel)) {
    if (used + widthOf(entry) > room) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)!.push(entry);
    used += widthOf(entry);
  }
  return rows;
}

function widthOf({ label }: Entry): number {
  return SAMPLE_WIDTH + SAMPLE_GAP + [...label].length * LETTER_WIDTH + ENTRY_GAP;
}

function entriesOf(panel: PlotPanel): Entry[] {
  const looks = looksOf(panel);
  const lines = panel.series.flatMap((series, index): Entry[] => {
    const look = looks[index]!;
    const { colour, dash } = look;
    const stroke = (x: number, y: number) => (dash === null ? '' : element('line', { x1: x, x2: x + SAMPLE_WIDTH, y1: y, y2: y, stroke: colour, 'stroke-width': 2, 'stroke-dasharray': dash }));
    const own: Entry = { label: series.label, sample: (x, y) => stroke(x, y) + drawMark(look, x + SAMPLE_WIDTH / 2, y) };
    // History and forecast of one quantity have one band.
    const named = panel.series.slice(0, index).some(({ bandLabel }) => bandLabel === series.bandLabel);
    if (series.bandLabel === undefined || named) return [own];
    return [own, { label: series.bandLabel, sample: (x, y) => element('rect', { x, y: y - 6, width: SAMPLE_WIDTH, height: 12, fill: colour, 'fill-opacity': '0.16' }) }];
  });
  const limits = (panel.limits ?? []).map(({ label }): Entry => ({
    label,
    sample: (x, y) => element('line', { x1: x, x2: x + SAMPLE_WIDTH, y1: y, y2: y, stroke: INK.limit, 'stroke-width': 1.5, 'stroke-dasharray': '2 3' }),
  }));
  return [...lines, ...limits];
}
