/** A plot as an SVG 1.1 document (W3C): panels below each other over one time axis, with a title and description for screen readers. */
import { drawable } from './drawable.js';
import { timeScale } from './frame.js';
import { drawPanel, panelSpace } from './panel.js';
import { drawSheet } from './sheet.js';
import type { Plot } from './types.js';

/** Draws a plot. Equal data give equal bytes. Points outside the time shown or beyond all measure are left out; text of people cannot become markup. */
export function plotSvg(wanted: Plot): string {
  const plot = drawable(wanted);
  const { x, ticks } = timeScale(plot);
  const spaces = plot.panels.map(panelSpace);
  const height = spaces.reduce((sum, space) => sum + space.height, 0);
  return drawSheet(plot, height, (head) => {
    const tops = spaces.map(({ above }, index) => head + spaces.slice(0, index).reduce((sum, space) => sum + space.height, 0) + above);
    return plot.panels.map((panel, index) => drawPanel(plot, panel, { top: tops[index]!, x, ticks }));
  });
}
