/** Values of one row as they were sent, from JSON or from a table: a number, or a moment, or why it is none. */
import { say } from '#care';
import { isInstantFault, readInstant } from '../../intake/import/read-instant.js';
import { remark, type Remark } from './measurement-words.js';

/** What a row is read with. Times of a table may be local; those of JSON carry their offset. */
export type Form = { kind: 'json' } | { kind: 'table'; timeZone: string };

/** A value of a row, or what is wrong with it; null when it was left out or is blank. */
export type Read<T> = { value: T } | { remark: Remark } | null;

const blank = (value: unknown) => value === undefined || value === null || (typeof value === 'string' && value.trim() === '');

/** A finite number. In a table a decimal comma is one, because no number of these columns reaches a thousand. */
export function readNumber(value: unknown, member: string, form: Form): Read<number> {
  if (blank(value)) return null;
  if (typeof value === 'number' && Number.isFinite(value)) return { value };
  const text = String(value).trim();
  const shown = shorten(typeof value === 'object' ? JSON.stringify(value) : text);
  if (/^[+-]?[\d.,]+\s*[^\d\s.,]/.test(text)) return { remark: remark('unit_in_cell', member, say('Write the number alone, without a unit or words: “{value}”.', { value: shown })) };
  const number = /^[+-]?\d+(?:[.,]\d+)?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
  if (form.kind === 'table' && Number.isFinite(number)) return { value: number };
  return { remark: remark('not_a_number', member, say('This is not a number: “{value}”.', { value: shown })) };
}

/** A name: a code or an id. */
export function readName(value: unknown): string | null {
  return blank(value) ? null : String(value).trim();
}

const RFC_3339 = /^\d{4}-\d{2}-\d{2}[Tt]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:[Zz]|[+-]\d{2}:\d{2})$/;
/** Years that a mistyped one is told from; as for every instant of the API. */
const YEARS = { first: Date.UTC(1990, 0), after: Date.UTC(2200, 0) };

/** A moment. What is not clear to the minute is refused: a reading at another time is another reading. */
export function readMoment(value: unknown, member: string, form: Form): Read<number> {
  if (blank(value)) return null;
  const text = String(value).trim();
  if (form.kind === 'json' && !RFC_3339.test(text)) return { remark: remark('time_unreadable', member, say('Write the moment with its date and offset, such as 2026-05-09T06:30:00Z: “{value}” is none.', { value: shorten(text) })) };
  const read = readInstant(text, form.kind === 'table' ? form.timeZone : 'UTC');
  if (isInstantFault(read)) return { remark: remark(read.code, member, read.said) };
  if (read.precision === 'day') return { remark: remark('time_of_day_missing', member, say('Only the day is given. Write the time of day as well.')) };
  if (read.repair === 'date_hour_twice') return { remark: remark('time_twice', member, say('The clocks were put back over this time, so it came twice. Add the offset from UTC.')) };
  if (read.atMs < YEARS.first || read.atMs >= YEARS.after) return { remark: remark('date_impossible', member, say('This year lies outside 1990 to 2199.')) };
  return { value: read.atMs };
}

/** Long nonsense is not repeated whole. */
export function shorten(text: string): string {
  const storable = text.replace(/[\u0000\p{Surrogate}]/gu, '\uFFFD');
  return storable.length > 40 ? `${storable.slice(0, 39).replace(/\p{Surrogate}$/u, '')}…` : storable;
}
