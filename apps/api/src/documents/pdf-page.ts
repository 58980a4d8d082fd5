/**
 * Printed pages at exact size. All measures are millimetres from the upper left corner of the page; 1 mm is 72/25.4 PDF points
 * (ISO 32000-1, 8.3.2.3: a unit of user space is 1/72 inch). The typeface is embedded, so every printer draws the same letters.
 */
import { createRequire } from 'node:module';
import Pdf from 'pdfkit';

/** Points of PDF user space in one millimetre. */
export const POINTS_PER_MM = 72 / 25.4;

/** Height of capitals and digits, as a share of the size of the type (Atkinson Hyperlegible: 668 of 1000 units). */
export const CAP_HEIGHT_EM = 0.668;

const DIRECTORY = '@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-';
// Two files for each weight: western letters, and those of the other languages that are written in Latin script.
const FILES = { regular: ['latin-400-normal', 'latin-ext-400-normal'], bold: ['latin-700-normal', 'latin-ext-700-normal'] } as const;
const require = createRequire(import.meta.url);

export type Weight = keyof typeof FILES;

export interface Paper {
  widthMm: number;
  heightMm: number;
}

/** What the file says about itself. `createdAtMs` is an argument, so that the same document has the same bytes. */
export interface AboutDocument {
  title: string;
  /** BCP 47 tag, for readers that speak the text. */
  language: string;
  createdAtMs: number;
}

export interface TextStyle {
  sizeMm: number;
  weight?: Weight;
  colour?: string;
  /** Where `xMm` is: at the beginning, the middle or the end of the line. */
  align?: 'left' | 'centre' | 'right';
}

interface Glyphs {
  hasGlyphForCodePoint(point: number): boolean;
}

/** A document that is drawn page by page and then finished. */
export class PdfPages {
  private readonly document: PDFKit.PDFDocument;
  private readonly chunks: Buffer[] = [];
  private readonly ended: Promise<void>;
  private readonly glyphs = new Map<string, Glyphs>();

  constructor(about: AboutDocument) {
    this.document = new Pdf({
      autoFirstPage: false, margin: 0, lang: about.language, displayTitle: true, pdfVersion: '1.7',
      info: { Title: about.title, Creator: 'Wrackline', Producer: 'Wrackline', CreationDate: new Date(about.createdAtMs) },
    });
    for (const file of Object.values(FILES).flat()) {
      this.document.registerFont(file, require.resolve(`${DIRECTORY}${file}.woff`));
      this.glyphs.set(file, (this.document.font(file) as unknown as { _font: { font: Glyphs } })._font.font);
    }
    this.ended = new Promise((resolve, reject) => void this.document.on('data', (chunk: Buffer) => this.chunks.push(chunk)).on('end', resolve).on('error', reject));
  }

  addPage(paper: Paper): void {
    this.document.addPage({ size: [paper.widthMm * POINTS_PER_MM, paper.heightMm * POINTS_PER_MM], margin: 0 });
  }

  /** One line of text on its baseline. Characters that the typeface lacks are drawn as `?`; ask `canWrite` first where that matters. */
  text(value: string, xMm: number, baselineMm: number, style: TextStyle): void {
    const width = this.widthMm(value, style);
    let x = style.align === 'centre' ? xMm - width / 2 : style.align === 'right' ? xMm - width : xMm;
    for (const run of this.runs(value, style.weight)) {
      this.type(run.file, style.sizeMm).fillColor(style.colour ?? '#000').text(run.text, x * POINTS_PER_MM, baselineMm * POINTS_PER_MM, { lineBreak: false, baseline: 'alphabetic' });
      x += this.document.widthOfString(run.text) / POINTS_PER_MM;
    }
  }

  widthMm(value: string, style: Pick<TextStyle, 'sizeMm' | 'weight'>): number {
    return this.runs(value, style.weight).reduce((sum, run) => sum + this.type(run.file, style.sizeMm).widthOfString(run.text) / POINTS_PER_MM, 0);
  }

  /** True when the typeface has every character of the text. */
  canWrite(value: string): boolean {
    return [...value.normalize('NFC')].every((character) => this.fileOf(character, 'regular') !== null);
  }

  /** The text, cut at its end with an ellipsis when it is wider than the room. */
  fitted(value: string, widthMm: number, style: Pick<TextStyle, 'sizeMm' | 'weight'>): string {
    if (this.widthMm(value, style) <= widthMm) return value;
    const characters = [...value];
    while (characters.length > 0 && this.widthMm(`${cutEnd(characters)}…`, style) > widthMm) characters.pop();
    return characters.length === 0 ? '' : `${cutEnd(characters)}…`;
  }

  /** Lines of words that fit the width; a word that is wider than the room is cut as `fitted` cuts. */
  wrapped(value: string, widthMm: number, style: Pick<TextStyle, 'sizeMm' | 'weight'>): string[] {
    const lines: string[] = [];
    for (const word of value.split(/\s+/).filter((each) => each !== '')) {
      const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
      if (lines.length > 0 && this.widthMm(longer, style) <= widthMm) lines[lines.length - 1] = longer;
      else lines.push(this.fitted(word, widthMm, style));
    }
    return lines;
  }

  line(fromXMm: number, fromYMm: number, toXMm: number, toYMm: number, widthMm: number, colour = '#000'): void {
    this.document.moveTo(fromXMm * POINTS_PER_MM, fromYMm * POINTS_PER_MM).lineTo(toXMm * POINTS_PER_MM, toYMm * POINTS_PER_MM).lineWidth(widthMm * POINTS_PER_MM).strokeColor(colour).stroke();
  }

  /** The outline of a box; the middle of the stroke runs along the edge. */
  frame(box: { xMm: number; yMm: number; widthMm: number; heightMm: number }, strokeMm: number, colour = '#000', cornerMm = 0): void {
    const [x, y, width, height, corner] = [box.xMm, box.yMm, box.widthMm, box.heightMm, cornerMm].map((each) => each * POINTS_PER_MM) as [number, number, number, number, number];
    this.document.lineWidth(strokeMm * POINTS_PER_MM).strokeColor(colour);
    (corner > 0 ? this.document.roundedRect(x, y, width, height, corner) : this.document.rect(x, y, width, height)).stroke();
  }

  /** Lines of a pen, drawn on a field of so many units, in a box; what lies outside the field is left out. */
  strokes(strokes: readonly (readonly number[])[], box: { xMm: number; yMm: number; widthMm: number; heightMm: number }, field: { widthUnits: number; heightUnits: number }, widthMm: number): void {
    const within = (value: number, most: number): number => Math.min(Math.max(value, 0), most);
    const xOf = (units: number): number => (box.xMm + (within(units, field.widthUnits) / field.widthUnits) * box.widthMm) * POINTS_PER_MM;
    const yOf = (units: number): number => (box.yMm + (within(units, field.heightUnits) / field.heightUnits) * box.heightMm) * POINTS_PER_MM;
    this.document.lineWidth(widthMm * POINTS_PER_MM).lineCap('round').lineJoin('round').strokeColor('#000');
    for (const points of strokes) {
      for (let at = 0; at + 1 < points.length; at += 2) {
        const [x, y] = [xOf(points[at] as number), yOf(points[at + 1] as number)];
        if (at === 0) this.document.moveTo(x, y);
        // A dot is a line that goes nowhere.
        if (at > 0 || points.length === 2) this.document.lineTo(x, y);
      }
      this.document.stroke();
    }
  }

  /** How high a JPEG is that is drawn so wide. */
  pictureHeightMm(jpeg: Uint8Array, widthMm: number): number {
    const { width, height } = (this.document as unknown as { openImage(bytes: Buffer): { width: number; height: number } }).openImage(Buffer.from(jpeg.buffer, jpeg.byteOffset, jpeg.byteLength));
    return (widthMm * height) / width;
  }

  /** A JPEG, whole and undistorted, at the lower edge of a box and in its middle. */
  picture(jpeg: Uint8Array, box: { xMm: number; yMm: number; widthMm: number; heightMm: number }): void {
    const [x, y, width, height] = [box.xMm, box.yMm, box.widthMm, box.heightMm].map((each) => each * POINTS_PER_MM) as [number, number, number, number];
    this.document.image(Buffer.from(jpeg.buffer, jpeg.byteOffset, jpeg.byteLength), x, y, { fit: [width, height], align: 'center', valign: 'bottom' });
  }

  /** Black boxes as one path and one fill, so that no seam shows between neighbours. */
  filled(boxes: readonly { xMm: number; yMm: number; widthMm: number; heightMm: number }[], colour = '#000'): void {
    for (const box of boxes) this.document.rect(box.xMm * POINTS_PER_MM, box.yMm * POINTS_PER_MM, box.widthMm * POINTS_PER_MM, box.heightMm * POINTS_PER_MM);
    this.document.fillColor(colour).fill();
  }

  /** Ends the document; nothing can be drawn any more. */
  async finish(): Promise<Buffer> {
    this.document.end();
    await this.ended;
    return Buffer.concat(this.chunks);
  }

  private type(file: string, sizeMm: number): PDFKit.PDFDocument {
    return this.document.font(file).fontSize(sizeMm * POINTS_PER_MM);
  }

  /** The text cut where the file of the typeface changes. */
  private runs(value: string, weight: Weight = 'regular'): { file: string; text: string }[] {
    const runs: { file: string; text: string }[] = [];
    for (const character of value.normalize('NFC')) {
      const found = this.fileOf(character, weight);
      const [file, text] = found === null ? [FILES[weight][0], '?'] : [found, character];
      const last = runs.at(-1);
      if (last?.file === file) last.text += text;
      else runs.push({ file, text });
    }
    return runs;
  }

  private fileOf(character: string, weight: Weight): string | null {
    const point = character.codePointAt(0) ?? 0;
    return FILES[weight].find((file) => this.glyphs.get(file)?.hasGlyphForCodePoint(point) === true) ?? null;
  }
}

/** What is left of a text that is cut, without the space or comma at its end. */
function cutEnd(characters: readonly string[]): string {
  return characters.join('').replace(/[\s,;:]+$/u, '');
}
