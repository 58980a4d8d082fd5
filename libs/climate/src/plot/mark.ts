/** The mark of one point. */
import type { Look } from './frame.js';
import { element, rounded } from './svg.js';

/** `size`: 1, or less where readings crowd. A dot, square or triangle for a reading, a cross for a weighing, a hollow ring for what is not believed, nothing for what is reckoned. */
export function drawMark({ style, nth, colour }: Look, cx: number, cy: number, size = 1): string {
  if (style === 'measured') return drawReading(nth, cx, cy, size, colour);
  if (style === 'doubted') return element('circle', { cx, cy, r: 4, fill: 'none', stroke: colour, 'stroke-width': 1.6 });
  if (style !== 'weighed') return '';
  const [left, right, top, bottom] = [cx - 5, cx + 5, cy - 5, cy + 5].map(rounded);
  return element('path', { d: `M${left} ${top}L${right} ${bottom}M${left} ${bottom}L${right} ${top}`, stroke: colour, 'stroke-width': 2.2 });
}

function drawReading(nth: number, cx: number, cy: number, size: number, colour: string): string {
  const r = 2.2 * size;
  if (nth % 3 === 0) return element('circle', { cx, cy, r, fill: colour });
  if (nth % 3 === 1) return element('rect', { x: cx - r, y: cy - r, width: 2 * r, height: 2 * r, fill: colour });
  return element('path', { d: `M${rounded(cx)} ${rounded(cy - 1.4 * r)}L${rounded(cx + 1.4 * r)} ${rounded(cy + 1.1 * r)}H${rounded(cx - 1.4 * r)}Z`, fill: colour });
}
