/** Measures of the typeface that the layout of a label needs. */
import type { CodeLines, TypeMeasure } from '#custody';
import { CAP_HEIGHT_EM } from './pdf-page.js';

const ONE: CodeLines = [[0, 11]];
const TWO: CodeLines = [[0, 4], [5, 11]];
const THREE: CodeLines = [[0, 4], [5, 8], [9, 11]];

/**
 * How a code is broken (`KBCD-FGH-42`) and how wide the widest code is then, in bold type. Fixed numbers, so that all labels of a
 * template look alike whatever stands on them; a test measures every letter and holds no code to be wider.
 */
export const LABEL_TYPE: TypeMeasure = {
  capHeightEm: CAP_HEIGHT_EM,
  code: [{ lines: ONE, widthEm: 8.05 }, { lines: TWO, widthEm: 4.35 }, { lines: THREE, widthEm: 3.35 }],
};
