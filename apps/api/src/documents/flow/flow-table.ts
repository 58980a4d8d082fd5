/** Tables that go on over pages: the head stands on each, and a row is broken only where it is longer than a page. */
import type { FlowDocument } from './flow-document.js';
import { ASCENT, BODY_MM, LEADING } from './flow-text.js';

export interface Column {
  head: string;
  /** Share of the width, in any unit. */
  share: number;
  weight?: 'regular' | 'bold';
}

const [PAD_MM, STEP_MM, RULE] = [1.6, BODY_MM * LEADING, { widthMm: 0.2, colour: '#888' }];

type Laid = string[][];

/** Draws a table below what stands there already. */
export function flowTable(flow: FlowDocument, columns: readonly Column[], rows: readonly (readonly string[])[]): void {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => (flow.widthMm * share) / shares);
  const lay = (cells: readonly string[], weights: readonly ('regular' | 'bold')[]): Laid => cells.map((cell, index) => flow.measure.lines(cell, (widths[index] ?? 0) - 2 * PAD_MM, { sizeMm: BODY_MM, weight: weights[index] ?? 'regular' }));
  const bold = columns.map(() => 'bold' as const);
  const body = columns.map(({ weight }) => weight ?? 'regular');
  const head = lay(columns.map((column) => column.head), bold);
  const laid = rows.map((row) => lay(row, body));
  const place = (cells: Laid, weights: readonly ('regular' | 'bold')[]): void => drawRow(flow, widths, cells, weights);
  flow.space(2);
  flow.need(heightOf(head) + Math.min(heightOf(laid[0] ?? []), flow.pageRoomMm / 3));
  place(head, bold);
  const roomMm = flow.pageRoomMm - heightOf(head);
  for (const row of laid) {
    for (const part of partsOf(row, Math.floor((roomMm - 2 * PAD_MM) / STEP_MM))) {
      if (flow.yMm + heightOf(part) > flow.bottomMm) {
        flow.newPage();
        place(head, bold);
      }
      place(part, body);
    }
  }
}

const linesIn = (cells: Laid): number => Math.max(1, ...cells.map((lines) => lines.length));
const heightOf = (cells: Laid): number => linesIn(cells) * STEP_MM + 2 * PAD_MM;

/** A row in parts of so many lines at most. */
function partsOf(row: Laid, most: number): Laid[] {
  return Array.from({ length: Math.ceil(linesIn(row) / most) }, (_, index) => row.map((lines) => lines.slice(index * most, (index + 1) * most)));
}

function drawRow(flow: FlowDocument, widths: readonly number[], cells: Laid, weights: readonly ('regular' | 'bold')[]): void {
  const [top, heightMm] = [flow.yMm, heightOf(cells)];
  let xMm = flow.leftMm;
  cells.forEach((lines, index) => {
    const left = xMm + PAD_MM;
    lines.forEach((line, row) => flow.line(line, left, top + PAD_MM + row * STEP_MM + BODY_MM * ASCENT, { sizeMm: BODY_MM, weight: weights[index] ?? 'regular' }));
    xMm += widths[index] ?? 0;
  });
  const bottom = top + heightMm;
  flow.draw((pdf) => pdf.line(flow.leftMm, bottom, flow.leftMm + flow.widthMm, bottom, RULE.widthMm, RULE.colour));
  flow.yMm = bottom;
}
