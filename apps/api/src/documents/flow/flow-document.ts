/**
 * Papers of running text: blocks one below the other, pages as they are needed, "n of m" at the foot of each. Everything is laid out
 * before anything is drawn, because the foot of the first page names the last.
 */
import { render, say, type Language, type Message } from '#care';
import { PdfPages, type Paper } from '../pdf-page.js';
import { ASCENT, BODY_MM, LEADING, SMALL_MM, TextMeasure, type LineStyle } from './flow-text.js';

/** Papers that printers have. ISO 216 A4; ANSI/ASME Y14.1 A (US letter), 8.5 by 11 inches. */
export const PAPERS = { a4: { widthMm: 210, heightMm: 297 }, letter: { widthMm: 215.9, heightMm: 279.4 } } as const satisfies Record<string, Paper>;
export type PaperName = keyof typeof PAPERS;

/** Printers leave some 5 mm blank; the rest is room for a thumb and for punched holes. */
export const MARGIN_MM = 18;
const FOOT_MM = 12;

export interface FlowAbout {
  title: string;
  /** What the foot of each page says besides its number, such as the household's code. */
  foot: string;
  language: Language;
  createdAtMs: number;
  paper: PaperName;
}

type Draw = (pdf: PdfPages) => void;

export interface TextBlock {
  weight?: 'regular' | 'bold';
  sizeMm?: number;
  /** Distance to what stands above it. */
  beforeMm?: number;
  /** From the left edge of the text. */
  indentMm?: number;
  colour?: string;
  /** Stands before the first line, within the indent. */
  mark?: string;
  /** Room that must be left below its last line, so that a heading does not stand alone. */
  keepMm?: number;
}

/** A paper that grows downwards. */
export class FlowDocument {
  readonly pdf: PdfPages;
  readonly measure: TextMeasure;
  readonly widthMm: number;
  readonly leftMm = MARGIN_MM;
  private readonly pages: Draw[][] = [];
  private readonly paper: Paper;
  private unwritable = false;
  /** Where the next block begins, from the upper edge of the page. */
  yMm = 0;

  constructor(private readonly about: FlowAbout) {
    this.pdf = new PdfPages({ title: about.title, language: about.language, createdAtMs: about.createdAtMs });
    this.measure = new TextMeasure(this.pdf);
    this.paper = PAPERS[about.paper];
    this.widthMm = this.paper.widthMm - 2 * MARGIN_MM;
    this.newPage();
  }

  /** A sentence of ours in the language of the paper. */
  readonly spoken = (message: Message): string => render(message, this.about.language);

  /** The lowest point that a block may reach. */
  get bottomMm(): number {
    return this.paper.heightMm - MARGIN_MM - FOOT_MM / 2;
  }

  /** Room of a whole page. */
  get pageRoomMm(): number {
    return this.bottomMm - MARGIN_MM;
  }

  get pageCount(): number {
    return this.pages.length;
  }

  newPage(): void {
    this.pages.push([]);
    this.yMm = MARGIN_MM;
  }

  /** True where nothing stands on the page yet. */
  get atTop(): boolean {
    return this.yMm === MARGIN_MM;
  }

  /** Goes on to a new page when so much room is not left; more than a page has is never waited for. */
  need(heightMm: number): void {
    if (!this.atTop && this.yMm + Math.min(heightMm, this.pageRoomMm) > this.bottomMm) this.newPage();
  }

  space(heightMm: number): void {
    if (!this.atTop) this.yMm += heightMm;
  }

  /** Draws on the present page; lays nothing out. */
  draw(draw: Draw): void {
    this.pages.at(-1)?.push(draw);
  }

  /** One line at a place of the present page. */
  line(text: string, xMm: number, baselineMm: number, style: LineStyle & { colour?: string; align?: 'left' | 'centre' | 'right' }): void {
    if (!this.pdf.canWrite(text)) this.unwritable = true;
    this.draw((pdf) => pdf.text(text, xMm, baselineMm, style));
  }

  title(text: string): void {
    this.text(text, { sizeMm: 7.4, weight: 'bold', keepMm: 12 });
    this.yMm += 1.5;
  }

  heading(text: string): void {
    this.text(text, { sizeMm: 5.4, weight: 'bold', beforeMm: 5, keepMm: 26 });
    this.yMm += 0.8;
  }

  /** A block of text; it goes on on the next page where it must. */
  text(text: string, { weight = 'regular', sizeMm = BODY_MM, beforeMm = 0, indentMm = 0, colour = '#000', mark, keepMm = 0 }: TextBlock = {}): void {
    const style = { sizeMm, weight };
    const lines = this.measure.lines(text, this.widthMm - indentMm, style);
    const stepMm = sizeMm * LEADING;
    this.space(beforeMm);
    // Not one line alone at the foot of a page.
    this.need(Math.min(lines.length, 2) * stepMm + keepMm);
    lines.forEach((line, index) => {
      this.need(stepMm);
      if (index === 0 && mark !== undefined) this.line(mark, this.leftMm + indentMm - 4.5, this.yMm + sizeMm * ASCENT, { sizeMm, weight, colour });
      this.line(line, this.leftMm + indentMm, this.yMm + sizeMm * ASCENT, { sizeMm, weight, colour });
      this.yMm += stepMm;
    });
  }

  /** Points of a list. */
  points(texts: readonly string[], block: TextBlock = {}): void {
    texts.forEach((text) => this.text(text, { indentMm: 5.5, mark: '•', beforeMm: 0.9, ...block }));
  }

  /** What is known, a line each: its name in bold, then what it is. */
  facts(pairs: readonly (readonly [string, string])[]): void {
    const bold = { sizeMm: BODY_MM, weight: 'bold' } as const;
    const nameMm = Math.min(this.widthMm * 0.42, Math.max(0, ...pairs.map(([name]) => this.measure.widthMm(name, bold))) + 4);
    const stepMm = BODY_MM * LEADING;
    for (const [name, value] of pairs) {
      const names = this.measure.lines(name, nameMm - 3, bold);
      const values = this.measure.lines(value, this.widthMm - nameMm, { sizeMm: BODY_MM });
      for (let index = 0; index < Math.max(names.length, values.length, 1); index += 1) {
        this.need(stepMm);
        const baselineMm = this.yMm + BODY_MM * ASCENT;
        if (names[index] !== undefined) this.line(names[index] as string, this.leftMm, baselineMm, bold);
        if (values[index] !== undefined) this.line(values[index] as string, this.leftMm + nameMm, baselineMm, { sizeMm: BODY_MM });
        this.yMm += stepMm;
      }
      this.yMm += 0.5;
    }
  }

  /** A frame with a few lines that must not be overlooked. */
  notice(text: string): void {
    const [insetMm, stepMm] = [3, BODY_MM * LEADING];
    const lines = this.measure.lines(text, this.widthMm - 2 * insetMm, { sizeMm: BODY_MM });
    const heightMm = lines.length * stepMm + 2 * insetMm;
    this.space(4);
    this.need(heightMm);
    const top = this.yMm;
    this.draw((pdf) => pdf.frame({ xMm: this.leftMm, yMm: top, widthMm: this.widthMm, heightMm }, 0.4, '#000', 1.5));
    lines.forEach((line, index) => this.line(line, this.leftMm + insetMm, top + insetMm + index * stepMm + BODY_MM * ASCENT, { sizeMm: BODY_MM }));
    this.yMm = top + heightMm;
  }

  /** A line to write on, with what belongs there below it. */
  fields(names: readonly string[]): void {
    const [gapMm, heightMm] = [6, 18];
    this.need(heightMm);
    const widthMm = (this.widthMm - gapMm * (names.length - 1)) / names.length;
    const lineMm = this.yMm + heightMm - 6;
    names.forEach((name, index) => {
      const xMm = this.leftMm + index * (widthMm + gapMm);
      this.draw((pdf) => pdf.line(xMm, lineMm, xMm + widthMm, lineMm, 0.25));
      this.line(this.pdf.fitted(name, widthMm, { sizeMm: SMALL_MM }), xMm, lineMm + 4.6, { sizeMm: SMALL_MM });
    });
    this.yMm += heightMm;
  }

  /** Draws everything; nothing can be added any more. */
  finish(): Promise<Buffer> {
    if (this.unwritable) this.text(this.spoken(say('A question mark may stand for a letter or sign that this typeface does not have. The record keeps it as it was written.')), { sizeMm: SMALL_MM, beforeMm: 4 });
    const of = this.pages.length;
    this.pages.forEach((page, index) => {
      this.pdf.addPage(this.paper);
      for (const draw of page) draw(this.pdf);
      this.foot(this.spoken(say('Page {page} of {pages}', { page: String(index + 1), pages: String(of) })));
    });
    return this.pdf.finish();
  }

  private foot(number: string): void {
    const baselineMm = this.paper.heightMm - MARGIN_MM + 3;
    const style = { sizeMm: SMALL_MM };
    const rightMm = this.leftMm + this.widthMm;
    this.pdf.line(this.leftMm, baselineMm - 5.5, rightMm, baselineMm - 5.5, 0.2, '#888');
    this.pdf.text(this.pdf.fitted(this.about.foot, this.widthMm - this.pdf.widthMm(number, style) - 6, style), this.leftMm, baselineMm, style);
    this.pdf.text(number, rightMm, baselineMm, { ...style, align: 'right' });
  }
}
