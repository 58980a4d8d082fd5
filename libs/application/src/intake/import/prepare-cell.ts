/** Repairs that any cell may need, whatever its column means. */
import { say } from '#care';
import { looksLikeFormula } from './cell-guard.js';
import type { ImportColumn } from './import-columns.js';
import type { RowRemarks } from './row-remarks.js';
import { meansNothing } from './vocabularies.js';

/** Columns of free words: nothing is read into them, and an apostrophe or a sign may belong to the text. */
const WORDS: ReadonlySet<ImportColumn> = new Set<ImportColumn>(['object', 'familyWords', 'contactName', 'contactAddress', 'photograph']);
/** Columns where a formula cannot be told from a value that must be right. */
const MUST_BE_VALUES: ReadonlySet<ImportColumn> = new Set<ImportColumn>(['tag', 'household', 'count', 'wettedAt', 'arrivedAt']);

const CONTROLS = /[\u0001-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\u200B\u2060\uFEFF]/g;
const CONSTANT_FORMULA = /^="((?:[^"]|"")*)"$/;

/** The text of a cell, repaired, and blank when it means nothing; what was done to it goes into the remarks. */
export function prepareCell(raw: string, column: ImportColumn, remarks: RowRemarks): string {
  let cell = withoutControls(raw, column, remarks);
  cell = trimmed(cell, column, remarks);
  cell = withoutApostrophe(cell, column, remarks);
  cell = withoutConstantFormula(cell, column, remarks);
  if (looksLikeFormula(cell) && !meansNothing(cell)) cell = formula(cell, column, remarks);
  return !WORDS.has(column) && meansNothing(cell) ? '' : cell;
}

function withoutControls(raw: string, column: ImportColumn, remarks: RowRemarks): string {
  const cell = raw.replace(CONTROLS, '');
  if (cell !== raw) remarks.repair(column, 'control_removed', say('Characters that cannot be seen were taken out.'), raw.replace(CONTROLS, '\u00A4'), cell);
  return cell;
}

/** Space around a cell goes; inside, every run of white space is one space, except in the family's words, whose lines stay. */
function trimmed(raw: string, column: ImportColumn, remarks: RowRemarks): string {
  const cell = column === 'familyWords' ? raw.trim().replace(/\r\n?/g, '\n') : raw.trim().replace(/\s+/g, ' ');
  // A blank cell of spaces, and line ends of another system, are not worth a word.
  if (cell !== raw && cell !== '' && cell !== raw.replace(/\r\n?/g, '\n')) remarks.repair(column, 'trimmed', say('Space at the ends or between words was taken out.'), raw, cell);
  return cell;
}

/** The mark with which a spreadsheet makes a cell text. Before a letter of free words it may belong there: 's, 't. */
function withoutApostrophe(raw: string, column: ImportColumn, remarks: RowRemarks): string {
  if (!/^['\u2019]/.test(raw) || (WORDS.has(column) && !/^['\u2019]\d/.test(raw))) return raw;
  const cell = raw.replace(/^['\u2019]+\s*/, '');
  remarks.repair(column, 'apostrophe_removed', say('The apostrophe that marks a cell as text was taken off.'), raw, cell);
  return cell;
}

/** `="0042"` is how some programs protect leading zeros: the text inside is the value. */
function withoutConstantFormula(raw: string, column: ImportColumn, remarks: RowRemarks): string {
  const inside = CONSTANT_FORMULA.exec(raw)?.[1];
  if (inside === undefined) return raw;
  const cell = inside.replaceAll('""', '"').trim();
  remarks.repair(column, 'formula_text_read', say('The cell is a formula that only holds a text; the text was taken.'), raw, cell);
  return cell;
}

/** A formula is never evaluated: where a value is needed it refuses the row, elsewhere it stays as the text it is. */
function formula(cell: string, column: ImportColumn, remarks: RowRemarks): string {
  if (MUST_BE_VALUES.has(column)) {
    remarks.refuse(column, 'formula_cell', say('This cell holds a formula, and formulas are not evaluated. Export the table with values.'), cell);
    return '';
  }
  remarks.note(column, 'formula_kept_as_text', say('The cell looks like a formula. It is kept as text and never evaluated; files that we write put an apostrophe before it.'), cell);
  return cell;
}
