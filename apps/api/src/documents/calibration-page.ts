/** A page to try a template on plain paper: rulers both ways, the frames of its labels, and what to do when they do not fit. */
import { render, say, type Language, type Message } from '#care';
import { labelFrames, labelsPerPage, type LabelTemplate } from '#custody';
import { PdfPages } from './pdf-page.js';

export interface CalibrationPage {
  name: string;
  template: LabelTemplate;
  language: Language;
  createdAtMs: number;
}

const FRAME = { strokeMm: 0.2, colour: '#888' } as const;
/** Room that the words need on the page of the frames; on smaller paper they get pages of their own. */
const ROOMY_MM = { width: 150, height: 150 } as const;
const RULER = { fromMm: 10, ticks: { 10: 5, 5: 3.2, 1: 1.8 } } as const;

/** Draws the page as PDF; on small paper the words stand on further pages. */
export async function calibrationPdf({ name, template, language, createdAtMs }: CalibrationPage): Promise<Buffer> {
  const title = render(say('Calibration page, {name}', { name }), language);
  const pdf = new PdfPages({ title, language, createdAtMs });
  const { page } = template;
  pdf.addPage(page);
  for (const frame of labelFrames(template, labelsPerPage(template))) pdf.frame(frame, FRAME.strokeMm, FRAME.colour, template.cornerMm);
  const lengths = { acrossMm: rulerLengthMm(page.widthMm), downMm: rulerLengthMm(page.heightMm) };
  rulerAcross(pdf, lengths.acrossMm);
  rulerDown(pdf, lengths.downMm);
  const steps = stepsOf(template, lengths).map((step) => render(step, language));
  if (page.widthMm >= ROOMY_MM.width && page.heightMm >= ROOMY_MM.height) wordsOnPage(pdf, page, title, steps);
  else wordsOnOwnPages(pdf, page, title, steps);
  return pdf.finish();
}

/** Whole centimetres that fit between equal margins, on small paper from edge to edge less a finger. */
function rulerLengthMm(sideMm: number): number {
  return Math.max(10, Math.floor((sideMm - 2 * startOf(sideMm)) / 10) * 10);
}

function startOf(sideMm: number): number {
  return sideMm >= ROOMY_MM.width ? RULER.fromMm : 5;
}

function tickOf(at: number): number {
  return at % 10 === 0 ? RULER.ticks[10] : at % 5 === 0 ? RULER.ticks[5] : RULER.ticks[1];
}

/** Along the upper edge, from left to right. */
function rulerAcross(pdf: PdfPages, lengthMm: number): void {
  const fromMm = lengthMm > 100 ? RULER.fromMm : 5;
  pdf.line(fromMm, fromMm, fromMm + lengthMm, fromMm, 0.2);
  for (let at = 0; at <= lengthMm; at += 1) pdf.line(fromMm + at, fromMm, fromMm + at, fromMm + tickOf(at), at % 10 === 0 ? 0.2 : 0.12);
  for (let at = 10; at <= lengthMm; at += 10) pdf.text(String(at), fromMm + at, fromMm + 8, { sizeMm: 2.8, align: 'centre' });
}

/** Along the left edge, from top to bottom. */
function rulerDown(pdf: PdfPages, lengthMm: number): void {
  const fromMm = lengthMm > 100 ? RULER.fromMm : 5;
  pdf.line(fromMm, fromMm, fromMm, fromMm + lengthMm, 0.2);
  for (let at = 0; at <= lengthMm; at += 1) pdf.line(fromMm, fromMm + at, fromMm + tickOf(at), fromMm + at, at % 10 === 0 ? 0.2 : 0.12);
  for (let at = 10; at <= lengthMm; at += 10) pdf.text(String(at), fromMm + 6, fromMm + at + 1, { sizeMm: 2.8 });
}

function stepsOf(template: LabelTemplate, { acrossMm, downMm }: { acrossMm: number; downMm: number }): Message[] {
  const { marginLeftMm, marginTopMm, pitchXMm, pitchYMm } = template;
  return [
    say('1. Print this page on plain paper at 100 %, also called actual size. Do not let the printer fit it to the page.'),
    say('2. Measure the rulers: {across} mm across and {down} mm down. If one is longer or shorter, the printer still scales: change its settings and print again.', { across: String(acrossMm), down: String(downMm) }),
    say('3. Hold the page and a sheet of labels together against the light. Each frame should lie on a label.'),
    say('4. If all frames are off the same way, change the margins of the template by as much: left {left} mm, upper {upper} mm now. If they drift further off along the page, change the distance from label to label: {acrossEach} mm across, {downEach} mm down now.',
      { left: String(marginLeftMm), upper: String(marginTopMm), acrossEach: String(pitchXMm), downEach: String(pitchYMm) }),
    say('5. For wet halls take spun-bond polyethylene or polyester film, write with pencil or pigment ink, and rub a first tag with a wet thumb. Tie tags on with cotton tape or a plastic tie. Never put adhesive, pins or staples on a textile.'),
  ];
}

/** In the middle of the page, on white, so that frames and words do not run through one another. */
function wordsOnPage(pdf: PdfPages, page: LabelTemplate['page'], title: string, steps: readonly string[]): void {
  const style = { sizeMm: 4.4 };
  const box = { xMm: 32, widthMm: page.widthMm - 52 };
  const lines = linesOf(pdf, steps, box.widthMm - 12, style);
  const heightMm = lines.reduce((sum, line) => sum + line.beforeMm, 0) + 26;
  const yMm = (page.heightMm - heightMm) / 2;
  pdf.filled([{ ...box, yMm, heightMm }], '#fff');
  pdf.frame({ ...box, yMm, heightMm }, 0.4, '#000', 2);
  pdf.text(title, box.xMm + 6, yMm + 11, { sizeMm: 6.5, weight: 'bold' });
  let baselineMm = yMm + 15;
  for (const line of lines) pdf.text(line.text, box.xMm + 6, (baselineMm += line.beforeMm), style);
}

function wordsOnOwnPages(pdf: PdfPages, page: LabelTemplate['page'], title: string, steps: readonly string[]): void {
  const style = { sizeMm: Math.min(4.4, Math.max(2.8, Math.min(page.widthMm, page.heightMm) * 0.075)) };
  const insetMm = 3;
  let baselineMm = Infinity;
  for (const line of [...linesOf(pdf, [title], page.widthMm - 2 * insetMm, style), ...linesOf(pdf, steps, page.widthMm - 2 * insetMm, style)]) {
    baselineMm += line.beforeMm;
    if (baselineMm > page.heightMm - insetMm) {
      pdf.addPage(page);
      baselineMm = insetMm + style.sizeMm;
    }
    pdf.text(line.text, insetMm, baselineMm, style);
  }
}

/** Paragraphs broken into lines, each with its distance from the baseline before. */
function linesOf(pdf: PdfPages, paragraphs: readonly string[], widthMm: number, style: { sizeMm: number }): { text: string; beforeMm: number }[] {
  return paragraphs.flatMap((paragraph) => pdf.wrapped(paragraph, widthMm, style).map((text, index) => ({ text, beforeMm: style.sizeMm * (index === 0 ? 2 : 1.35) })));
}
