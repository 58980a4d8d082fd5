/** Running text broken into lines: nothing that somebody wrote is ever cut off. */
import type { PdfPages, TextStyle, Weight } from '../pdf-page.js';

/** Size of running text: 12.5 points, which people read at arm's length. Our own choice; a test holds it to 12 points at least. */
export const BODY_MM = 4.4;
/** Size of what a text rests on, and of page numbers: 10.5 points. */
export const SMALL_MM = 3.7;
/** From baseline to baseline, as a share of the size. */
export const LEADING = 1.32;
/** From the top of a line to its baseline, as a share of the size. */
export const ASCENT = 0.98;

export type LineStyle = Pick<TextStyle, 'sizeMm' | 'weight'>;

/** Where a word that is wider than its room is broken rather than anywhere. */
const BREAK_AFTER = /[-/._,;:@–—]/u;

/** Measures and breaks text of one document; words are measured once. */
export class TextMeasure {
  private readonly known = new Map<string, number>();

  constructor(private readonly pdf: PdfPages) {}

  /** Width of a piece of text without breaks. */
  widthMm(text: string, { sizeMm, weight = 'regular' }: LineStyle): number {
    const words = text.split(' ');
    return sizeMm * (words.reduce((sum, word) => sum + this.wordEm(word, weight), 0) + (words.length - 1) * this.wordEm(' ', weight));
  }

  /** The lines of a text within a width; line breaks of the writer stay, an empty text is no line. */
  lines(text: string, widthMm: number, style: LineStyle): string[] {
    return text.split(/\r\n|[\n\r\u2028\u2029]/u).flatMap((paragraph) => this.paragraph(paragraph, widthMm, style));
  }

  private paragraph(text: string, widthMm: number, style: LineStyle): string[] {
    const lines: string[] = [];
    for (const word of text.split(/\s+/u).filter((each) => each !== '').flatMap((each) => this.pieces(each, widthMm, style))) {
      const last = lines.at(-1);
      if (last !== undefined && this.widthMm(`${last} ${word}`, style) <= widthMm) lines[lines.length - 1] = `${last} ${word}`;
      else lines.push(word);
    }
    return lines;
  }

  /** A word that is wider than the room in pieces that are not. */
  private pieces(word: string, widthMm: number, style: LineStyle): string[] {
    if (this.widthMm(word, style) <= widthMm) return [word];
    const pieces: string[] = [];
    let [piece, breakAt] = ['', 0];
    for (const character of word) {
      if (piece !== '' && this.widthMm(piece + character, style) > widthMm) {
        // At a hyphen or full stop where one stands in the second half, else where the room ends.
        const at = breakAt > piece.length / 2 ? breakAt : piece.length;
        pieces.push(piece.slice(0, at));
        [piece, breakAt] = [piece.slice(at), 0];
      }
      piece += character;
      if (BREAK_AFTER.test(character)) breakAt = piece.length;
    }
    return piece === '' ? pieces : [...pieces, piece];
  }

  private wordEm(word: string, weight: Weight): number {
    const key = `${weight} ${word}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const em = this.pdf.widthMm(word, { sizeMm: 1, weight });
    this.known.set(key, em);
    return em;
  }
}
