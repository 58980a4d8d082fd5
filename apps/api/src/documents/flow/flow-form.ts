/** Forms to be filled in by hand, with gloves on and in bad light: boxes to tick, lines to write on, empty tables. */
import type { FlowDocument } from './flow-document.js';
import { ASCENT, BODY_MM, LEADING } from './flow-text.js';
import type { Column } from './flow-table.js';

/** A box that a pencil in a wet glove finds: our own choice. */
const BOX_MM = 5;
/** From line to line where people write. */
const WRITING_MM = 10;
const INK = '#555';

/** A question in bold and boxes to tick behind it, over as many lines as they need. */
export function tickBoxes(flow: FlowDocument, question: string, options: readonly string[]): void {
  const [stepMm, gapMm, afterBoxMm] = [BOX_MM + 2.6, 7, 1.8];
  flow.text(question, { weight: 'bold', beforeMm: 2.4, keepMm: stepMm });
  flow.yMm += 0.6;
  let xMm = flow.leftMm;
  flow.need(stepMm);
  for (const option of options) {
    const widthMm = BOX_MM + afterBoxMm + flow.measure.widthMm(option, { sizeMm: BODY_MM });
    if (xMm > flow.leftMm && xMm + widthMm > flow.leftMm + flow.widthMm) {
      flow.yMm += stepMm;
      flow.need(stepMm);
      xMm = flow.leftMm;
    }
    const [left, top] = [xMm, flow.yMm];
    flow.draw((pdf) => pdf.frame({ xMm: left + 0.2, yMm: top + 0.2, widthMm: BOX_MM - 0.4, heightMm: BOX_MM - 0.4 }, 0.4));
    flow.line(option, left + BOX_MM + afterBoxMm, top + (BOX_MM - BODY_MM) / 2 + BODY_MM * 0.86, { sizeMm: BODY_MM });
    xMm += widthMm + gapMm;
  }
  flow.yMm += stepMm;
}

/** Lines to write on, under a heading in bold. */
export function ruledLines(flow: FlowDocument, name: string, lines: number): void {
  flow.text(name, { weight: 'bold', beforeMm: 2.4, keepMm: WRITING_MM });
  for (let index = 0; index < lines; index += 1) {
    flow.need(WRITING_MM);
    const yMm = flow.yMm + WRITING_MM - 1;
    flow.draw((pdf) => pdf.line(flow.leftMm, yMm, flow.leftMm + flow.widthMm, yMm, 0.25, INK));
    flow.yMm += WRITING_MM;
  }
}

/** Fields beside each other: a name in bold, then a line up to the next. Shares are of the width. */
export function writtenFields(flow: FlowDocument, fields: readonly { name: string; share: number }[]): void {
  const [heightMm, gapMm] = [WRITING_MM + 2, 4];
  flow.need(heightMm);
  const shares = fields.reduce((sum, { share }) => sum + share, 0);
  const baselineMm = flow.yMm + heightMm - 2.5;
  let xMm = flow.leftMm;
  for (const { name, share } of fields) {
    const widthMm = (flow.widthMm * share) / shares - gapMm;
    const style = { sizeMm: BODY_MM, weight: 'bold' } as const;
    flow.line(name, xMm, baselineMm, style);
    const [from, to] = [xMm + flow.measure.widthMm(name, style) + 1.5, xMm + widthMm];
    flow.draw((pdf) => pdf.line(from, baselineMm + 0.6, to, baselineMm + 0.6, 0.25, INK));
    xMm += widthMm + gapMm;
  }
  flow.yMm += heightMm;
}

/** An empty table down to the foot of the page; with `numbered` the first column holds the number of each line. */
export function blankTable(flow: FlowDocument, columns: readonly Column[], { numbered = false } = {}): void {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => (flow.widthMm * share) / shares);
  const heads = columns.map(({ head }, index) => flow.measure.lines(head, (widths[index] ?? 0) - 3, { sizeMm: BODY_MM, weight: 'bold' }));
  const top = flow.yMm + 2;
  const headMm = Math.max(...heads.map((lines) => lines.length)) * BODY_MM * LEADING + 3;
  const rows = Math.max(1, Math.floor((flow.bottomMm - top - headMm) / WRITING_MM));
  const bottom = top + headMm + rows * WRITING_MM;
  let xMm = flow.leftMm;
  widths.forEach((widthMm, index) => {
    const left = xMm;
    heads[index]?.forEach((line, row) => flow.line(line, left + 1.5, top + 1.5 + row * BODY_MM * LEADING + BODY_MM * ASCENT, { sizeMm: BODY_MM, weight: 'bold' }));
    flow.draw((pdf) => pdf.line(left, top, left, bottom, 0.25, INK));
    xMm += widthMm;
  });
  const right = xMm;
  flow.draw((pdf) => {
    pdf.line(right, top, right, bottom, 0.25, INK);
    pdf.line(flow.leftMm, top, right, top, 0.25, INK);
    for (let row = 0; row <= rows; row += 1) pdf.line(flow.leftMm, top + headMm + row * WRITING_MM, right, top + headMm + row * WRITING_MM, 0.25, INK);
  });
  for (let row = 0; numbered && row < rows; row += 1) flow.line(String(row + 1), flow.leftMm + (widths[0] ?? 0) - 2, top + headMm + row * WRITING_MM + (WRITING_MM + BODY_MM * 0.72) / 2, { sizeMm: BODY_MM, weight: 'bold', align: 'right' });
  flow.yMm = bottom;
}
