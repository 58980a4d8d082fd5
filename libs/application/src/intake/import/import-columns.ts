/** Our columns, and how a header of a file is recognised as one of them. */

/** Columns in the order in which we would print them. `tag` and `household` must be there; all others may be left out. */
export const IMPORT_COLUMNS = [
  'tag', 'household', 'contactName', 'contactPhone', 'contactEmail', 'contactAddress', 'language', 'object', 'familyWords', 'photograph', 'count',
  'material', 'size', 'significance', 'wettedAt', 'arrivedAt', 'water', 'consentTreat', 'consentFreeze', 'consentRefer',
] as const;
export type ImportColumn = (typeof IMPORT_COLUMNS)[number];

/** A file without one of these is refused whole. */
export const REQUIRED_COLUMNS: readonly ImportColumn[] = ['tag', 'household'];

/** Columns that hold personal data: never in a remark, never kept for a row that went in. */
export const CONTACT_COLUMNS: ReadonlySet<string> = new Set<ImportColumn>(['contactName', 'contactPhone', 'contactEmail', 'contactAddress']);

/** Column of the mending file that says why a row was refused; taken out again when the file comes back. */
export const PROBLEM_COLUMN = '_problem';
/** Column of the mending file for a line that could not be taken apart into columns. */
export const LINE_COLUMN = '_line';

/** Other headers that people write, folded; our own list. They count only where the column itself is absent. */
const ALIASES: Readonly<Record<string, ImportColumn>> = {
  tagcode: 'tag', taglabel: 'tag', householdcode: 'household', name: 'contactName', phone: 'contactPhone', email: 'contactEmail', address: 'contactAddress',
  description: 'object', thing: 'object', wordsofthefamily: 'familyWords', photo: 'photograph', picture: 'photograph', pieces: 'count', number: 'count',
  materialclass: 'material', sizeclass: 'size', wetted: 'wettedAt', wetsince: 'wettedAt', arrived: 'arrivedAt', waterkind: 'water',
};

const BY_NAME = new Map<string, ImportColumn>(IMPORT_COLUMNS.map((column) => [foldName(column), column]));

/** Case, accents, spaces, hyphens, underscores and points do not matter. */
export function foldName(name: string): string {
  return name.normalize('NFKD').replace(/[^\p{L}\p{N}]/gu, '').toLowerCase();
}

/** What each header of a file is: one of our columns, or `null` for one that is not used. */
export interface HeaderMatch {
  columns: (ImportColumn | null)[];
  /** Columns that two headers name by their own name: nobody can say which one counts. */
  twice: ImportColumn[];
}

/** Matches the headers of a file; a header that is a column's own name goes before one that is only like it. */
export function matchHeaders(headers: readonly string[]): HeaderMatch {
  const folded = headers.map((header) => (header.trim().startsWith('_') ? '' : foldName(header)));
  const taken = new Set<ImportColumn>();
  const twice = new Set<ImportColumn>();
  const columns = folded.map((name) => {
    const column = BY_NAME.get(name) ?? null;
    if (column !== null && taken.has(column)) twice.add(column);
    if (column !== null) taken.add(column);
    return column;
  });
  folded.forEach((name, at) => {
    const alias = Object.hasOwn(ALIASES, name) ? ALIASES[name] : undefined;
    if (alias === undefined || taken.has(alias)) return;
    taken.add(alias);
    columns[at] = alias;
  });
  return { columns, twice: [...twice] };
}

/** How many headers are our columns; the measure for a delimiter. */
export function recognised(headers: readonly string[]): number {
  return matchHeaders(headers).columns.filter((column) => column !== null).length;
}
