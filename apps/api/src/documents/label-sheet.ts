/** Sheets of tags: each label with the symbol to scan, its code in large letters, its kind, its incident, and a field to write in. */
import { render, say, type Language, type Message } from '#care';
import { CAPTION_LINE_EM, codeBaselinesMm, formatTagCode, labelFrames, labelLayout, type Box, type LabelFrame, type LabelLayout, type LabelTemplate, type TagKind } from '#custody';
import { LABEL_TYPE } from './label-type.js';
import { PdfPages } from './pdf-page.js';
import { qrSquares, tagQr } from './qr-squares.js';

export interface LabelSheet {
  template: LabelTemplate;
  kind: TagKind;
  /** In the order in which they are printed; `placeName` of tags that hang at a place already. */
  tags: readonly { code: string; placeName: string | null }[];
  incidentName: string;
  /** Position of the first label on its page, from 0: what is before it on a part-used sheet stays blank. */
  firstPosition: number;
  /** Lines to cut along, for sheets that are not cut. */
  cutLines: boolean;
  language: Language;
  createdAtMs: number;
}

const GREY = '#777';
const FIELD_STROKE_MM = 0.25;

/** The words for the kinds of tags, as they stand on labels. */
const KIND_WORDS: Readonly<Record<TagKind, Message>> = { item: say('Item'), container: say('Container'), place: say('Place'), person: say('Person') };

/** Draws the sheet as PDF. @throws RangeError when the first position is not on the page or the label is too small. */
export async function labelSheetPdf(sheet: LabelSheet): Promise<Buffer> {
  const layout = labelLayout(sheet.template.label, LABEL_TYPE);
  if (layout === null) throw new RangeError('the label is too small for a tag');
  const kindWord = render(KIND_WORDS[sheet.kind], sheet.language);
  const pdf = new PdfPages({ title: render(say('Tags: {kind}, {incident}', { kind: KIND_WORDS[sheet.kind], incident: sheet.incidentName }), sheet.language), language: sheet.language, createdAtMs: sheet.createdAtMs });
  const caption = captionOf(pdf, layout.caption, kindWord, sheet.incidentName);
  let page = -1;
  labelFrames(sheet.template, sheet.tags.length, sheet.firstPosition).forEach((frame, index) => {
    for (; page < frame.page; page += 1) pdf.addPage(sheet.template.page);
    const tag = sheet.tags[index];
    if (sheet.cutLines) pdf.frame(frame, 0.15, '#999', sheet.template.cornerMm);
    if (tag) drawLabel(pdf, frame, layout, { ...tag, caption });
  });
  return pdf.finish();
}

interface LabelText {
  code: string;
  placeName: string | null;
  caption: Caption;
}

/** The same on every label of a sheet. */
interface Caption {
  kind: string;
  incident: string;
  /** Where the incident begins, from the left edge and the first baseline of the caption. */
  rightMm: number;
  downMm: number;
}

function drawLabel(pdf: PdfPages, frame: LabelFrame, layout: LabelLayout, text: LabelText): void {
  const [x, y] = [frame.xMm, frame.yMm];
  pdf.filled(qrSquares(tagQr(text.code), x + layout.qr.xMm, y + layout.qr.yMm, layout.qr.moduleMm));
  const printed = formatTagCode(text.code);
  const { code } = layout;
  codeBaselinesMm(code).forEach((baselineMm, index) => {
    const [from, to] = code.lines[index] ?? [0, 0];
    pdf.text(printed.slice(from, to), x + code.xMm + code.widthMm / 2, y + baselineMm, { sizeMm: code.sizeMm, weight: 'bold', align: 'centre' });
  });
  const { sizeMm } = layout.caption;
  const [leftMm, baselineMm] = [x + layout.caption.xMm, y + layout.caption.yMm + sizeMm * 0.82];
  pdf.text(text.caption.kind, leftMm, baselineMm, { sizeMm, weight: 'bold' });
  pdf.text(text.caption.incident, leftMm + text.caption.rightMm, baselineMm + text.caption.downMm, { sizeMm });
  if (layout.writing !== null) drawField(pdf, { ...layout.writing, xMm: x + layout.writing.xMm, yMm: y + layout.writing.yMm }, text.placeName);
}

/** The kind in bold, then the incident as far as it fits. */
function captionOf(pdf: PdfPages, box: LabelLayout['caption'], kindWord: string, incidentName: string): Caption {
  const style = { sizeMm: box.sizeMm, weight: 'bold' } as const;
  const kind = pdf.fitted(kindWord, box.widthMm, style);
  const rightMm = box.lines === 1 ? pdf.widthMm(kind, style) + box.sizeMm * 0.5 : 0;
  return { kind, incident: pdf.fitted(incidentName, box.widthMm - rightMm, { sizeMm: box.sizeMm }), rightMm, downMm: box.lines === 1 ? 0 : box.sizeMm * CAPTION_LINE_EM };
}

/** The name of the place where it is known and can be written in our type; else a blank field for a pencil. */
function drawField(pdf: PdfPages, box: Box, placeName: string | null): void {
  if (placeName === null || placeName.trim() === '' || !pdf.canWrite(placeName)) {
    const half = FIELD_STROKE_MM / 2;
    return pdf.frame({ xMm: box.xMm + half, yMm: box.yMm + half, widthMm: box.widthMm - FIELD_STROKE_MM, heightMm: box.heightMm - FIELD_STROKE_MM }, FIELD_STROKE_MM, GREY, Math.min(1, box.heightMm / 4));
  }
  const { lines, sizeMm } = largestLines(pdf, placeName, box);
  const blockMm = (lines.length - 1) * sizeMm * 1.15 + sizeMm * 0.9;
  lines.forEach((line, index) => pdf.text(line, box.xMm + box.widthMm / 2, box.yMm + (box.heightMm - blockMm) / 2 + sizeMm * 0.72 + index * sizeMm * 1.15, { sizeMm, weight: 'bold', align: 'centre' }));
}

const NAME_LINES = 3;

/** A name in the largest type with which its words fit the box in three lines at most. */
function largestLines(pdf: PdfPages, name: string, box: Box): { lines: string[]; sizeMm: number } {
  const words = name.split(/\s+/).filter((word) => word !== '');
  for (let sizeMm = Math.min(box.heightMm * 0.8, 30); sizeMm > 2.8; sizeMm *= 0.93) {
    const style = { sizeMm, weight: 'bold' } as const;
    if (words.some((word) => pdf.widthMm(word, style) > box.widthMm)) continue;
    const lines = pdf.wrapped(name, box.widthMm, style);
    if (lines.length <= NAME_LINES && (lines.length - 1) * sizeMm * 1.15 + sizeMm <= box.heightMm) return { lines, sizeMm };
  }
  const sizeMm = Math.min(2.8, box.heightMm);
  return { lines: [pdf.fitted(name, box.widthMm, { sizeMm, weight: 'bold' })], sizeMm };
}
