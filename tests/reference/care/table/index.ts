import { MOULD_AND_STATE_ROWS, PRACTICE_ROWS, WATER_AND_HAZARD_ROWS } from './conditions.table.js';
import { AUDIO_VISUAL_ROWS, INORGANIC_ROWS, ORGANIC_ROWS } from './objects.table.js';
import { PAPER_ROWS, PHOTOGRAPH_ROWS } from './paper-and-photographs.table.js';
import type { Row } from './row.js';
import { TEXTILE_ROWS } from './textiles.table.js';

export { factsOf, failuresOf, outcomeOf } from './row.js';
export type { Expected, Row } from './row.js';

/** Every row, by section of the care guidance. */
export const TABLE: readonly Row[] = [
  ...TEXTILE_ROWS, ...PAPER_ROWS, ...PHOTOGRAPH_ROWS, ...AUDIO_VISUAL_ROWS, ...ORGANIC_ROWS, ...INORGANIC_ROWS, ...WATER_AND_HAZARD_ROWS, ...MOULD_AND_STATE_ROWS, ...PRACTICE_ROWS,
];
