/** How wide a text is drawn, without a font at hand. */
import { SIZE } from './frame.js';

/** Parts of the text size that signs advance by: upper bounds for DejaVu Sans, a wide sans-serif, read from its font file; a whole for scripts with square signs. */
const NARROW = /[iljtfrI.,:;|'’()[\]! -]/u;
const WIDE = /[mwMW@%#+<=>^~—…]|[^\u0000-\u2e7f]/u;
/** Round and broad capitals; those with marks and of other scripts among them. */
const BROAD = /[&DGHNOQU]|(?![A-Z])\p{Lu}/u;
const CAPITAL = /[A-Z]/u;

function advanceOf(sign: string): number {
  if (WIDE.test(sign)) return 1;
  if (NARROW.test(sign)) return 0.42;
  if (BROAD.test(sign)) return 0.79;
  return CAPITAL.test(sign) ? 0.7 : 0.65;
}

/** Bold letters are that much wider; from the same font. */
export const BOLD = 1.15;

/** Width that a text takes at a size in pixels, generous. */
export function widthOf(text: string, size: number = SIZE.text): number {
  return [...text].reduce((sum, sign) => sum + advanceOf(sign), 0) * size;
}

/** As much of a text as fits a width; what is cut ends in an ellipsis, and is empty where not even a sign fits. */
export function fitted(text: string, width: number, size: number = SIZE.text): string {
  if (widthOf(text, size) <= width) return text;
  const signs = [...text];
  while (signs.length > 0 && widthOf(`${signs.join('')}…`, size) > width) signs.pop();
  return signs.length === 0 ? '' : `${signs.join('').trimEnd()}…`;
}

/** Lines of at most so many letters and pixels, broken between words; a word that is longer than a line is broken inside. */
export function wrapped(text: string, letters: number, size: number): string[] {
  const fits = (line: string): boolean => line.length <= letters && widthOf(line, size) <= SIZE.width - SIZE.left - SIZE.right;
  const lines: string[] = [];
  for (const word of text.split(/\s+/).flatMap((whole) => pieces(whole, fits))) {
    const last = lines.at(-1);
    if (last !== undefined && fits(`${last} ${word}`)) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function pieces(word: string, fits: (line: string) => boolean): string[] {
  if (fits(word)) return [word];
  const parts: string[] = [''];
  for (const sign of word) {
    if (fits(parts.at(-1)! + sign)) parts[parts.length - 1] += sign;
    else parts.push(sign);
  }
  return parts;
}
