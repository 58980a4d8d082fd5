/** One row of a file: cells to values. Pure; everything that had to be assumed, put right or refused is in the remarks. */
import { say, type MaterialClass } from '#care';
import type { StandardItemKind } from '#climate';
import { IMPORT_COLUMNS, type ImportColumn } from './import-columns.js';
import { prepareCell } from './prepare-cell.js';
import { readTimes } from './read-times.js';
import { RowRemarks } from './row-remarks.js';
import type { ReadingFacts, RowReading, RowValues } from './row-values.js';
import type { TableRow } from './table.js';
import { understandLanguage, understandMaterial, understandSignificance, understandSize, understandWater, understandYesNo, usualSize } from './vocabularies.js';

/** Longest texts, as the single intake command takes them (contract of items and households). */
const LONGEST: Partial<Record<ImportColumn, number>> = { object: 500, familyWords: 2_000, photograph: 300, contactName: 200, contactPhone: 60, contactEmail: 200, contactAddress: 500, tag: 40 };
/** A household code, as its contract has it. */
const HOUSEHOLD_CODE = /^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/;
const MOST_PIECES = 100_000;

type Cells = Record<ImportColumn, string>;

/** Reads a row. Its tag is only repaired in spelling here; whether it is reserved and free is decided beside the stores. */
export function readRow(row: TableRow, facts: ReadingFacts): RowReading {
  const remarks = new RowRemarks();
  // The row has slipped or is no row: what its cells seem to say would only mislead.
  const said = row.fault === null ? remarks : new RowRemarks();
  if (row.fault !== null) remarks.refusals.push(row.fault);
  const cells = Object.fromEntries(IMPORT_COLUMNS.map((column) => [column, prepareCell(row.cells[column] ?? '', column, said)])) as Cells;
  requireCells(cells, said);
  return { rowNumber: row.rowNumber, cells: row.cells, values: readValues(cells, facts, said), remarks };
}

function readValues(cells: Cells, facts: ReadingFacts, remarks: RowRemarks): RowValues {
  const materialClass = readMaterial(cells.material, remarks);
  return {
    tag: cells.tag,
    householdCode: cells.household,
    contact: { name: cells.contactName, phone: cells.contactPhone, email: readEmail(cells.contactEmail, remarks), address: cells.contactAddress },
    language: readLanguage(cells.language, remarks),
    object: readObject(cells, remarks),
    familyWords: cells.familyWords,
    photographRef: cells.photograph,
    count: readCount(cells.count, remarks),
    materialClass,
    sizeClass: readSize(cells.size, materialClass, remarks),
    significance: readSignificance(cells.significance, remarks),
    ...readTimes(cells, facts, remarks),
    water: readWater(cells.water, remarks),
    consents: { treat: readConsent(cells, 'consentTreat', remarks), freeze: readConsent(cells, 'consentFreeze', remarks), refer: readConsent(cells, 'consentRefer', remarks) },
  };
}

function requireCells(cells: Cells, remarks: RowRemarks): void {
  const refused = new Set(remarks.refusals.map(({ column }) => column));
  if (cells.tag === '' && !refused.has('tag')) remarks.refuse('tag', 'tag_missing', say('A thing without a tag is lost among the others. Tie a tag to it and write its code here.'));
  if (cells.household === '' && !refused.has('household')) remarks.refuse('household', 'household_missing', say('Write the code of the household that owns the thing.'));
  if (cells.household !== '' && !HOUSEHOLD_CODE.test(cells.household)) remarks.refuse('household', 'household_malformed', say('A household code has 1 to 40 letters, digits, points, hyphens or underscores, without spaces. Write it that way.'), cells.household);
  for (const [column, longest] of Object.entries(LONGEST) as [ImportColumn, number][]) {
    if (cells[column].length > longest) remarks.refuse(column, 'too_long', say('This is longer than {longest} characters. Shorten it; nothing is cut off unseen.', { longest }), cells[column]);
  }
}

function readObject(cells: Cells, remarks: RowRemarks): string {
  if (cells.object !== '') return cells.object;
  if (cells.material === '') {
    remarks.refuse('object', 'object_missing', say('Say in a few words what the thing is, so that it can be recognised without its tag.'));
    return '';
  }
  remarks.repair('object', 'object_from_material', say('The thing was not described; what stands under material was taken.'), '', cells.material);
  return cells.material;
}

const COUNT_WORDS = /^(\d{1,6})\s*(?:x|pcs?\.?|pieces?|items?|sheets?|prints?|photos?|letters?|books?|st\.?|stk\.?|st\u00FCcke?|fotos?|briefe?|bilder)$/i;

function readCount(cell: string, remarks: RowRemarks): number {
  if (cell === '') return 1;
  const decimal = /^(\d{1,6})[.,]0{1,2}$/.exec(cell)?.[1];
  const worded = COUNT_WORDS.exec(cell)?.[1];
  const digits = /^\d{1,6}$/.test(cell) ? cell : (decimal ?? worded);
  if (digits === undefined) {
    const thousands = /^\d{1,3}([.,'\u2019 ]\d{3})+$/.test(cell);
    if (thousands) remarks.refuse('count', 'count_ambiguous', say('The mark inside this number can be a decimal point or a thousands mark. Write the number of pieces without it.'), cell);
    else remarks.refuse('count', 'count_unreadable', say('Write the number of pieces as a whole number, 1 for a single thing.'), cell);
    return 1;
  }
  const count = Number(digits);
  if (count < 1 || count > MOST_PIECES) remarks.refuse('count', 'count_out_of_range', say('The number of pieces goes from 1 to {most}. Look at the number again, or cut the lot into smaller ones.', { most: MOST_PIECES }), cell);
  else if (decimal !== undefined) remarks.repair('count', 'decimals_removed', say('The number had decimals that say nothing.'), cell, String(count));
  else if (worded !== undefined) remarks.repair('count', 'words_removed', say('The word behind the number was taken off.'), cell, String(count));
  return Math.min(MOST_PIECES, Math.max(1, count));
}

function readMaterial(cell: string, remarks: RowRemarks): MaterialClass {
  if (cell === '') {
    remarks.note('material', 'material_not_given', say('The material is not known yet; the thing is handled on the cautious side until it is assessed.'), null, 'unknown');
    return 'unknown';
  }
  const understood = understandMaterial(cell);
  if (understood === null) {
    remarks.note('material', 'material_unknown', say('No class of material is clear from this; the thing is handled on the cautious side until it is assessed.'), cell, 'unknown');
    return 'unknown';
  }
  if (understood.how === 'word') remarks.note('material', 'material_from_word', say('The class was taken from an everyday word; the assessment puts it right.'), cell, understood.value);
  return understood.value;
}

function readSize(cell: string, materialClass: MaterialClass, remarks: RowRemarks): StandardItemKind {
  const understood = cell === '' ? null : understandSize(cell);
  if (understood !== null) {
    if (understood.how === 'word') remarks.note('size', 'size_from_word', say('The size class was taken from an everyday word.'), cell, understood.value);
    return understood.value;
  }
  const usual = usualSize(materialClass);
  remarks.note('size', cell === '' ? 'size_assumed' : 'size_unknown', say('The size decides how much drying space is kept; the usual size of such a thing was taken.'), cell === '' ? null : cell, usual);
  return usual;
}

function readSignificance(cell: string, remarks: RowRemarks): RowValues['significance'] {
  if (cell === '') return 'valued';
  const understood = understandSignificance(cell);
  if (understood === null) remarks.note('significance', 'significance_unknown', say('This is none of everyday, valued, treasured, irreplaceable; `valued` was taken. Ask the family.'), cell, 'valued');
  else if (understood.how === 'word') remarks.note('significance', 'significance_from_word', say('Taken from an everyday word.'), cell, understood.value);
  return understood?.value ?? 'valued';
}

function readWater(cell: string, remarks: RowRemarks): RowValues['water'] {
  if (cell === '') return null;
  const understood = understandWater(cell);
  if (understood === null) remarks.note('water', 'water_unknown', say('No kind of water is clear from this; that of the incident was taken.'), cell);
  else if (understood.how === 'word') remarks.note('water', 'water_from_word', say('Taken from an everyday word.'), cell, understood.value);
  return understood?.value ?? null;
}

function readLanguage(cell: string, remarks: RowRemarks): string | null {
  if (cell === '') return null;
  const language = understandLanguage(cell);
  if (language === null) remarks.note('language', 'language_not_written', say('We write to households in English and Spanish only; English was taken for a new household.'), cell, 'en');
  return language;
}

function readEmail(cell: string, remarks: RowRemarks): string {
  if (cell !== '' && !/^[^\s@]+@[^\s@]+$/.test(cell)) remarks.note('contactEmail', 'email_doubtful', say('This does not look like an e-mail address; it was kept as it is.'));
  return cell;
}

function readConsent(cells: Cells, column: 'consentTreat' | 'consentFreeze' | 'consentRefer', remarks: RowRemarks): boolean | null {
  if (cells[column] === '') return null;
  const answer = understandYesNo(cells[column]);
  if (answer === null) remarks.note(column, 'consent_unread', say('This is neither yes nor no. No consent was recorded; ask the owner.'), cells[column]);
  return answer;
}
