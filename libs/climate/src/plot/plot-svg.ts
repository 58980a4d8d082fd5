/** A plot as an SVG 1.1 document (W3C): panels below each other over one time axis, with a title and description for screen readers. */
import { drawable } from './drawable.js';
import { INK, SIZE, timeScale } from './frame.js';
import { drawPanel, panelSpace } from './panel.js';
import { element, escaped, words } from './svg.js';
import type { Plot } from './types.js';

/** Characters that fit on a line of notes at the width of the plot. From trying, with DejaVu Sans. */
const NOTE_LETTERS = 108;

/** The same for the title, in its larger letters. */
const TITLE_LETTERS = 76;
const TITLE_LINE = 22;

/** Draws a plot. Equal data give equal bytes. Points outside the time shown or beyond all measure are left out; text of people cannot become markup. */
export function plotSvg(wanted: Plot): string {
  const plot = drawable(wanted);
  const { x, ticks } = timeScale(plot);
  const title = wrapped(plot.title, TITLE_LETTERS);
  const head = SIZE.titleHeight + (title.length - 1) * TITLE_LINE;
  const spaces = plot.panels.map(panelSpace);
  const tops = spaces.map(({ above }, index) => head + spaces.slice(0, index).reduce((sum, { height }) => sum + height, 0) + above);
  const below = head + spaces.reduce((sum, { height }) => sum + height, 0) + SIZE.lineHeight;
  const notes = notesBelow(plot.notes, below + 22);
  const height = notes.endY + 12;
  const shared = { viewBox: `0 0 ${SIZE.width} ${height}`, width: SIZE.width, height, 'font-family': 'sans-serif', 'font-size': SIZE.text, fill: INK.text };
  return element('svg', { xmlns: 'http://www.w3.org/2000/svg', 'xml:lang': plot.language, role: 'img', 'aria-labelledby': 'title desc', ...shared },
    element('title', { id: 'title' }, escaped(plot.title)),
    element('desc', { id: 'desc' }, escaped(plot.description)),
    element('rect', { width: SIZE.width, height, fill: '#ffffff' }),
    ...title.map((line, index) => words(line, { x: SIZE.left, y: 28 + index * TITLE_LINE, 'font-size': SIZE.title, 'font-weight': 'bold' })),
    ...plot.panels.map((panel, index) => drawPanel(plot, panel, { top: tops[index]!, x, ticks })),
    words(plot.timeLabel, { x: SIZE.width - SIZE.right, y: below - 4, 'text-anchor': 'end', fill: INK.faint }),
    ...notes.lines.map(({ text, y }) => words(text, { x: SIZE.left, y })),
  );
}

/** Notes in lines, each a little apart from the one above. */
function notesBelow(notes: readonly string[], fromY: number): { lines: { text: string; y: number }[]; endY: number } {
  const lines: { text: string; y: number }[] = [];
  let y = fromY;
  for (const note of notes) {
    for (const text of wrapped(note, NOTE_LETTERS)) {
      lines.push({ text, y });
      y += SIZE.lineHeight;
    }
    y += NOTE_GAP;
  }
  return { lines, endY: y };
}
const NOTE_GAP = 5;

/** Lines of at most so many letters, broken between words; a longer word stands alone. */
function wrapped(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
