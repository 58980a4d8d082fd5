/** The mark of one point. */
import { element, rounded } from './svg.js';
import type { PlotStyle } from './types.js';

/** A dot for a reading, a cross for a weighing, nothing for what is reckoned. */
export function drawMark(style: PlotStyle, cx: number, cy: number, colour: string): string {
  if (style === 'measured') return element('circle', { cx, cy, r: 2.2, fill: colour });
  if (style !== 'weighed') return '';
  const [left, right, top, bottom] = [cx - 5, cx + 5, cy - 5, cy + 5].map(rounded);
  return element('path', { d: `M${left} ${top}L${right} ${bottom}M${left} ${bottom}L${right} ${top}`, stroke: colour, 'stroke-width': 2.2 });
}
