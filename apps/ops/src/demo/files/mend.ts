import { parse } from 'csv-parse/sync';
import type { DemoHousehold } from '../world/types.js';
import { cellsOf, FILE_COLUMNS } from './cells.js';
import type { IntakeFile, RowTruth } from './intake-files.js';
import { quote } from './write-file.js';

/** Column in which the program says what is wrong, as documented for the file of refused rows. */
const PROBLEM_COLUMN = '_problem';

export interface MendedFile {
  name: string;
  content: Buffer;
  /** The things of its rows, in order. */
  truths: RowTruth[];
}

/**
 * Mends the file of refused rows the way a helper does who goes back to the things: every named row is written anew from what
 * the thing and its tag really say, and `_problem` stays in for the program to leave alone. Null when nothing was refused.
 */
export function mend(refusedCsv: string, file: IntakeFile, households: ReadonlyMap<string, DemoHousehold>, tags: ReadonlyMap<string, string>): MendedFile | null {
  const refused = parse(refusedCsv, { bom: true, columns: true, relax_column_count: true }) as Record<string, string>[];
  if (refused.length === 0) return null;
  const truths: RowTruth[] = [];
  const lines = refused.map((row) => {
    const problem = row[PROBLEM_COLUMN] ?? '';
    const truth = file.rows.get(Number(/^Row (\d+):/.exec(problem)?.[1]));
    if (!truth) throw new Error(`the refused row names no row of ${file.name}: ${problem}`);
    truths.push(truth);
    const cells = cellsOf(truth.thing, households.get(truth.thing.household)!, tags.get(truth.thing.key)!, 'rfc-3339');
    return [...FILE_COLUMNS.map((column) => cells[column]), problem];
  });
  const table = [[...FILE_COLUMNS, PROBLEM_COLUMN], ...lines];
  return { name: `${file.name}, mended.csv`, content: Buffer.from(table.map((row) => `${row.map((cell) => quote(cell)).join(',')}\r\n`).join(''), 'utf8'), truths };
}
