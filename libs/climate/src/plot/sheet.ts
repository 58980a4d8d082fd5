/** The sheet that every picture stands on: title, description for screen readers, what is drawn, and lines of notes below. SVG 1.1 (W3C). */
import { INK, SIZE } from './frame.js';
import { element, escaped, words } from './svg.js';
import { BOLD, wrapped } from './text-width.js';

/** What is said around a picture, in the reader's language. */
export interface SheetWords {
  title: string;
  /** What the picture says, for those who cannot see it. */
  description: string;
  language: string;
  /** Under the time axis, with the zone. */
  timeLabel: string;
  /** Lines under the picture. */
  notes: readonly string[];
}

/** Characters that fit on a line of notes at the width of the sheet. From trying, with DejaVu Sans. */
const NOTE_LETTERS = 108;

/** The same for the title, in its larger letters. */
const TITLE_LETTERS = 76;
const TITLE_LINE = 22;
const NOTE_GAP = 5;

/** A whole document. `height` is what the drawing takes; `draw` is told where it begins. */
export function drawSheet(said: SheetWords, height: number, draw: (top: number) => string[]): string {
  const title = wrapped(said.title, TITLE_LETTERS, SIZE.title * BOLD);
  const top = SIZE.titleHeight + (title.length - 1) * TITLE_LINE;
  const below = top + height + SIZE.lineHeight;
  const notes = notesBelow(said.notes, below + 22);
  const whole = notes.endY + 12;
  const shared = { viewBox: `0 0 ${SIZE.width} ${whole}`, width: SIZE.width, height: whole, 'font-family': 'sans-serif', 'font-size': SIZE.text, fill: INK.text };
  return element('svg', { xmlns: 'http://www.w3.org/2000/svg', 'xml:lang': said.language, role: 'img', 'aria-labelledby': 'title desc', ...shared },
    element('title', { id: 'title' }, escaped(said.title)),
    element('desc', { id: 'desc' }, escaped(said.description)),
    element('rect', { width: SIZE.width, height: whole, fill: '#ffffff' }),
    ...title.map((line, index) => words(line, { x: SIZE.left, y: 28 + index * TITLE_LINE, 'font-size': SIZE.title, 'font-weight': 'bold' })),
    ...draw(top),
    words(said.timeLabel, { x: SIZE.width - SIZE.right, y: below - 4, 'text-anchor': 'end', fill: INK.faint }),
    ...notes.lines.map(({ text, y }) => words(text, { x: SIZE.left, y })),
  );
}

/** Notes in lines, each a little apart from the one above. */
function notesBelow(notes: readonly string[], fromY: number): { lines: { text: string; y: number }[]; endY: number } {
  const lines: { text: string; y: number }[] = [];
  let y = fromY;
  for (const note of notes) {
    for (const text of wrapped(note, NOTE_LETTERS, SIZE.text)) {
      lines.push({ text, y });
      y += SIZE.lineHeight;
    }
    y += NOTE_GAP;
  }
  return { lines, endY: y };
}
