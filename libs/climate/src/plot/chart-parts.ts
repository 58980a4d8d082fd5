/** Hatches, samples and the time axis that charts share. */
import { INK, SIZE } from './frame.js';
import { element, rounded, words } from './svg.js';
import { fitted, widthOf } from './text-width.js';

const SAMPLE = { width: 30, height: 12, gap: 6 } as const;
const ENTRY_GAP = 16;

export interface LegendEntry {
  label: string;
  sample: (x: number, y: number, width: number, height: number) => string;
}

/** Entries broken into rows that fit the width. */
function rowsOf(entries: readonly LegendEntry[]): LegendEntry[][] {
  const room = SIZE.width - SIZE.left - SIZE.right;
  const rows: LegendEntry[][] = [];
  let used = Infinity;
  for (const entry of entries) {
    const width = SAMPLE.width + SAMPLE.gap + widthOf(entry.label) + ENTRY_GAP;
    if (used + width > room) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)!.push(entry);
    used += width;
  }
  return rows;
}

/** Pixels that a legend takes. */
export function entriesHeight(entries: readonly LegendEntry[]): number {
  return rowsOf(entries).length * SIZE.lineHeight;
}

/** A legend whose first row stands below `top`. */
export function drawEntries(entries: readonly LegendEntry[], top: number): string {
  const most = SIZE.width - SIZE.left - SIZE.right - SAMPLE.width - SAMPLE.gap;
  return element('g', {}, rowsOf(entries).map((row, index) => {
    const y = top + 8 + index * SIZE.lineHeight;
    let x: number = SIZE.left;
    return row.map(({ label, sample }) => {
      const drawn = sample(x, y - SAMPLE.height / 2, SAMPLE.width, SAMPLE.height) + words(fitted(label, most), { x: x + SAMPLE.width + SAMPLE.gap, y: y + 4 });
      x += SAMPLE.width + SAMPLE.gap + widthOf(label) + ENTRY_GAP;
      return drawn;
    }).join('');
  }).join(''));
}

/** Slanted strokes inside a box, cut at its edges: they print where a tint does not. */
export function hatch(x: number, y: number, width: number, height: number, colour: string, apart = 7): string {
  const strokes: string[] = [];
  for (let foot = apart; foot < width + height; foot += apart) {
    // From the left or lower edge up to the upper or right one.
    const [fromX, fromY] = foot <= height ? [0, foot] : [foot - height, height];
    const [toX, toY] = foot <= width ? [foot, 0] : [width, foot - width];
    strokes.push(`M${rounded(x + fromX)} ${rounded(y + fromY)}L${rounded(x + toX)} ${rounded(y + toY)}`);
  }
  return strokes.length === 0 ? '' : element('path', { d: strokes.join(''), stroke: colour, 'stroke-width': 1, fill: 'none' });
}

/** The axis below rows or columns, with lines up to the top at its ticks. */
export function drawTimeAxis(ticks: readonly { x: number; label: string }[], top: number, bottom: number): string {
  const [left, right] = [SIZE.left, SIZE.width - SIZE.right];
  return element('g', {},
    ...ticks.flatMap(({ x, label }) => [
      element('line', { x1: x, x2: x, y1: top, y2: bottom, stroke: INK.grid }),
      element('line', { x1: x, x2: x, y1: bottom, y2: bottom + 5, stroke: INK.text }),
      words(label, { x: Math.min(x, SIZE.width - widthOf(label) / 2), y: bottom + 19, 'text-anchor': 'middle' }),
    ]),
    element('path', { d: `M${left} ${rounded(top)}V${rounded(bottom)}H${right}`, fill: 'none', stroke: INK.text }),
  );
}
