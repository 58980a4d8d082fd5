/**
 * Formula injection. A cell that begins with one of these may run as a formula when a spreadsheet opens the file.
 * Guarded by a leading apostrophe after OWASP Application Security Verification Standard 5.0, requirement 1.2.10, and
 * the list of characters in this project's guidance (api-conventions B.15); the full-width forms are ours.
 *
 * Our rule: a cell is kept in the database as the text it is and is never evaluated; everything that we write as CSV is
 * guarded; a guard that comes back in a file is taken off. A guard is an apostrophe before zero or more apostrophes and
 * one of these characters, so taking one off always undoes putting one on, and any cell survives any number of trips.
 */
const GUARDED = /^'*[=+\-@\t\r\u0000\uFF1D\uFF0B\uFF0D\uFF20]/;

/** The cell as it may stand in a CSV file. */
export function guardCell(cell: string): string {
  return GUARDED.test(cell) ? `'${cell}` : cell;
}

/** The cell without the guard that `guardCell` put on; any other cell unchanged. */
export function unguardCell(cell: string): string {
  return cell.startsWith("'") && GUARDED.test(cell) ? cell.slice(1) : cell;
}

/** True for text that a spreadsheet would take for a formula. A number with a sign, such as a telephone number, is none. */
export function looksLikeFormula(cell: string): boolean {
  return /^[=@\uFF1D\uFF20]/.test(cell) || /^[+\-\uFF0B\uFF0D](?![\d\s()/.,-]*$)/.test(cell);
}
