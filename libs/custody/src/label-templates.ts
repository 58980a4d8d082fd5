/** Grids that come with the program, named by their dimensions. Common sizes of sheets and rolls, from memory; measure yours before you print many. */
import type { LabelTemplate } from './label-grid.js';

export interface BuiltInTemplate {
  /** Also its name: paper, then width and height of a label in whole millimetres. */
  id: string;
  template: LabelTemplate;
}

const A4 = { widthMm: 210, heightMm: 297 } as const;
const LETTER = { widthMm: 215.9, heightMm: 279.4 } as const;

export const BUILT_IN_TEMPLATES: readonly BuiltInTemplate[] = [
  { id: 'a4-64x38', template: { page: A4, marginLeftMm: 7.2, marginTopMm: 15.1, columns: 3, rows: 7, pitchXMm: 66, pitchYMm: 38.1, label: { widthMm: 63.5, heightMm: 38.1 }, cornerMm: 1.5 } },
  { id: 'a4-99x68', template: { page: A4, marginLeftMm: 4.7, marginTopMm: 13.1, columns: 2, rows: 4, pitchXMm: 101.5, pitchYMm: 67.7, label: { widthMm: 99.1, heightMm: 67.7 }, cornerMm: 1.5 } },
  { id: 'letter-67x25', template: { page: LETTER, marginLeftMm: 4.76, marginTopMm: 12.7, columns: 3, rows: 10, pitchXMm: 69.85, pitchYMm: 25.4, label: { widthMm: 66.68, heightMm: 25.4 }, cornerMm: 1.5 } },
  { id: 'letter-102x51', template: { page: LETTER, marginLeftMm: 3.97, marginTopMm: 12.7, columns: 2, rows: 5, pitchXMm: 106.36, pitchYMm: 50.8, label: { widthMm: 101.6, heightMm: 50.8 }, cornerMm: 1.5 } },
  { id: 'roll-57x32', template: alone(57, 32) },
  { id: 'roll-100x50', template: alone(100, 50) },
  { id: 'sign-a4', template: { page: A4, marginLeftMm: 10, marginTopMm: 10, columns: 1, rows: 1, pitchXMm: 190, pitchYMm: 277, label: { widthMm: 190, heightMm: 277 }, cornerMm: 0 } },
  { id: 'sign-a4-half', template: { page: A4, marginLeftMm: 10, marginTopMm: 10, columns: 1, rows: 2, pitchXMm: 190, pitchYMm: 141, label: { widthMm: 190, heightMm: 136 }, cornerMm: 0 } },
  { id: 'sign-letter', template: { page: LETTER, marginLeftMm: 10, marginTopMm: 10, columns: 1, rows: 1, pitchXMm: 195.9, pitchYMm: 259.4, label: { widthMm: 195.9, heightMm: 259.4 }, cornerMm: 0 } },
];

/** One label to a page, for printers that take a roll. */
function alone(widthMm: number, heightMm: number): LabelTemplate {
  return { page: { widthMm, heightMm }, marginLeftMm: 0, marginTopMm: 0, columns: 1, rows: 1, pitchXMm: widthMm, pitchYMm: heightMm, label: { widthMm, heightMm }, cornerMm: 0 };
}
