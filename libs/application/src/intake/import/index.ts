export { guardCell, unguardCell } from './cell-guard.js';
export { FILE_LIMITS, type FileFault } from './file-limits.js';
export { CONTACT_COLUMNS, IMPORT_COLUMNS, LINE_COLUMN, PROBLEM_COLUMN, REQUIRED_COLUMNS, type ImportColumn } from './import-columns.js';
export { readRow } from './read-row.js';
export { readTable, TABLE_MEDIA_TYPES, type TableMediaType } from './read-table.js';
export { refusedFileHeader, refusedFileRow } from './refused-file.js';
export type { ReadingFacts, RowConsents, RowReading, RowValues } from './row-values.js';
export { giveUpIntakeImport, ROWS_PER_CHUNK, runIntakeImport } from './run-intake-import.js';
export type { Table, TableRow } from './table.js';
