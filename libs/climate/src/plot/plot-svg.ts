/** A plot as an SVG 1.1 document (W3C): panels below each other over one time axis, with a title and description for screen readers. */
import { drawable } from './drawable.js';
import { INK, SIZE, timeScale } from './frame.js';
import { drawPanel, panelSpace } from './panel.js';
import { element, escaped, words } from './svg.js';
import type { Plot } from './types.js';

/** Characters that fit on a line of notes at the width of the plot. From trying, with DejaVu Sans. */
const NOTE_LETTERS = 108;

/** Draws a plot. Equal data give equal bytes. Points outside the time shown or beyond all measure are left out; text of people cannot become markup. */
export function plotSvg(wanted: Plot): string {
  const plot = drawable(wanted);
  const { x, ticks } = timeScale(plot);
  const spaces = plot.panels.map(panelSpace);
  const tops = spaces.map(({ above }, index) => SIZE.titleHeight + spaces.slice(0, index).reduce((sum, { height }) => sum + height, 0) + above);
  const below = SIZE.titleHeight + spaces.reduce((sum, { height }) => sum + height, 0) + SIZE.lineHeight;
  const notes = plot.notes.flatMap((note) => wrapped(note));
  const height = below + notes.length * SIZE.lineHeight + 20;
  const shared = { viewBox: `0 0 ${SIZE.width} ${height}`, width: SIZE.width, height, 'font-family': 'sans-serif', 'font-size': SIZE.text, fill: INK.text };
  return element('svg', { xmlns: 'http://www.w3.org/2000/svg', 'xml:lang': plot.language, role: 'img', 'aria-labelledby': 'title desc', ...shared },
    element('title', { id: 'title' }, escaped(plot.title)),
    element('desc', { id: 'desc' }, escaped(plot.description)),
    element('rect', { width: SIZE.width, height, fill: '#ffffff' }),
    words(plot.title, { x: SIZE.left, y: 28, 'font-size': SIZE.title, 'font-weight': 'bold' }),
    ...plot.panels.map((panel, index) => drawPanel(plot, panel, { top: tops[index]!, x, ticks })),
    words(`${plot.timeLabel} (${plot.timeZone})`, { x: SIZE.width - SIZE.right, y: below - SIZE.lineHeight, 'text-anchor': 'end', fill: INK.faint }),
    ...notes.map((note, index) => words(note, { x: SIZE.left, y: below + 8 + index * SIZE.lineHeight, fill: INK.text })),
  );
}

/** Lines of at most the width of the plot, broken between words; a longer word stands alone. */
function wrapped(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= NOTE_LETTERS) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
