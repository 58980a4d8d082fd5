/** Pictures beside each other, each with a line below it; a row is never broken. */
import type { FlowDocument } from './flow-document.js';
import { ASCENT, BODY_MM, LEADING } from './flow-text.js';

export interface CaptionedPicture {
  jpeg: Uint8Array;
  caption: string;
}

const [PER_ROW, GAP_MM, MOST_MM, CAPTION_GAP_MM] = [3, 5, 60, 1.5];

/** Draws pictures in rows of three, whole and undistorted. */
export function pictureRows(flow: FlowDocument, pictures: readonly CaptionedPicture[]): void {
  const widthMm = (flow.widthMm - GAP_MM * (PER_ROW - 1)) / PER_ROW;
  const stepMm = BODY_MM * LEADING;
  for (let from = 0; from < pictures.length; from += PER_ROW) {
    const row = pictures.slice(from, from + PER_ROW).map(({ jpeg, caption }) => ({ jpeg, lines: flow.measure.lines(caption, widthMm, { sizeMm: BODY_MM }) }));
    const pictureMm = Math.min(MOST_MM, Math.max(...row.map(({ jpeg }) => flow.pdf.pictureHeightMm(jpeg, widthMm))));
    const heightMm = pictureMm + CAPTION_GAP_MM + Math.max(...row.map(({ lines }) => lines.length)) * stepMm;
    flow.space(3);
    flow.need(heightMm);
    const top = flow.yMm;
    row.forEach(({ jpeg, lines }, column) => {
      const xMm = flow.leftMm + column * (widthMm + GAP_MM);
      flow.draw((pdf) => pdf.picture(jpeg, { xMm, yMm: top, widthMm, heightMm: pictureMm }));
      lines.forEach((line, index) => flow.line(line, xMm, top + pictureMm + CAPTION_GAP_MM + index * stepMm + BODY_MM * ASCENT, { sizeMm: BODY_MM }));
    });
    flow.yMm = top + heightMm;
  }
}
