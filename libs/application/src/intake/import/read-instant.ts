/**
 * Times as people write them in tables. RFC 3339 (section 5.6) is taken as it is. Everything else is read by its form alone
 * and reported as a repair; what could be two days is refused, never guessed. Our own rules.
 */
import { say, type Message } from '#care';
import { isPossible, momentsOf, type WallTime } from './local-time.js';

/** A time that was read. */
export interface ReadInstant {
  /** Earliest moment that the text can mean. */
  atMs: number;
  /** `day`: no time of day was given and `atMs` is the beginning of that day. */
  precision: 'time' | 'day';
  /** How it was written, when it was not RFC 3339. */
  repair: 'date_form' | 'date_two_digit_year' | 'date_hour_twice' | null;
}

/** Why a text is no time, with what to do. */
export interface InstantFault {
  code: 'date_ambiguous' | 'date_impossible' | 'date_unreadable' | 'date_serial_number';
  said: Message;
}

const RFC_3339 = /^(\d{4}-\d{2}-\d{2})([Tt ])(\d{2}:\d{2})(:\d{2}(?:\.\d+)?)?\s?([Zz]|[+-]\d{2}:?\d{2})$/;
const DATE_AND_TIME = /^(.*?\d)(?:(?:[Tt,]\s*|,?\s+)(?:um\s+|at\s+)?(\d{1,2})(?:[:.h](\d{2}))?(?:[:.](\d{2})(?:[.,]\d+)?)?\s*(am|pm|a\.m\.|p\.m\.|uhr|h)?)?$/i;
const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/;
const DOTTED = /^(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4}|\d{2})$/;
const SLASHED = /^(\d{1,2})([-/])(\d{1,2})\2(\d{4}|\d{2})$/;
const DAY_MONTH_NAME = /^(\d{1,2})(?:st|nd|rd|th)?[.\s-]*(\p{L}{3,})[.,\s-]*(\d{4}|\d{2})$/u;
const MONTH_NAME_DAY = /^(\p{L}{3,})[.\s]*(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})$/u;

/** First three letters of the months in English and German, without accents. */
const MONTHS: Readonly<Record<string, number>> = {
  jan: 1, feb: 2, mar: 3, mrz: 3, apr: 4, may: 5, mai: 5, jun: 6, jul: 7, aug: 8, sep: 9, oct: 10, okt: 10, nov: 11, dec: 12, dez: 12,
};

const HOW = { how: say('Write it as 2026-05-08 22:30 or 08.05.2026 22:30.') };

/** Reads one cell; a time without an offset is local time of `timeZone` (an IANA name). */
export function readInstant(cell: string, timeZone: string): ReadInstant | InstantFault {
  const text = cell.trim();
  const exact = RFC_3339.exec(text);
  if (exact) return readRfc3339(exact);
  if (/^\d{5}([.,]\d+)?$/.test(text)) return { code: 'date_serial_number', said: say('This is the inner number of a spreadsheet, not a date. Format the column as date and time, or as text. {how}', HOW) };
  const split = DATE_AND_TIME.exec(text);
  const day = split?.[1] === undefined ? null : readDay(split[1]);
  if (!split || day === null) return { code: 'date_unreadable', said: say('This is not a date that can be read. {how}', HOW) };
  if ('code' in day) return day;
  const time = readTime(split);
  return time === null ? impossible() : resolve({ ...day.date, ...time }, split[2] === undefined ? 'day' : 'time', day.twoDigitYear, timeZone);
}

function readRfc3339(match: RegExpExecArray): ReadInstant | InstantFault {
  const [, date = '', between = '', hourMinute = '', second = '', offset = ''] = match;
  const zone = /^z$/i.test(offset) ? 'Z' : offset.includes(':') ? offset : `${offset.slice(0, 3)}:${offset.slice(3)}`;
  const atMs = Date.parse(`${date}T${hourMinute}${second || ':00'}${zone}`);
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  // Date.parse rolls 30 February over into March.
  if (Number.isNaN(atMs) || !isPossible({ year, month, day, hour: 0, minute: 0, second: 0 })) return impossible();
  const asDefined = between.toUpperCase() === 'T' && second !== '' && zone === offset.toUpperCase();
  return { atMs, precision: 'time', repair: asDefined ? null : 'date_form' };
}

type Day = { date: Pick<WallTime, 'year' | 'month' | 'day'>; twoDigitYear: boolean };

function readDay(text: string): Day | InstantFault | null {
  const yearFirst = YEAR_FIRST.exec(text);
  if (yearFirst) return dayOf(yearFirst[1], yearFirst[3], yearFirst[4]);
  const dotted = DOTTED.exec(text);
  // Days come before months where points are used (DIN 5008 and the habit of the countries that write so; common practice).
  if (dotted) return dayOf(dotted[3], dotted[2], dotted[1]);
  const slashed = SLASHED.exec(text);
  if (slashed) return readSlashed(slashed);
  const named = DAY_MONTH_NAME.exec(text);
  if (named) return dayOf(named[3], monthNumber(named[2]), named[1]);
  const american = MONTH_NAME_DAY.exec(text);
  return american ? dayOf(american[3], monthNumber(american[1]), american[2]) : null;
}

/** 25/11 can only be a day and a month, and 11/25 a month and a day; 05/08 can be both. */
function readSlashed(match: RegExpExecArray): Day | InstantFault | null {
  const [, first = '', separator = '', second = '', year = ''] = match;
  const [a, b] = [Number(first), Number(second)];
  if (separator === '-' && year.length === 2) return { code: 'date_ambiguous', said: say('It is not clear which number is the year. {how}', HOW) };
  if (a <= 12 && b <= 12 && a !== b) return { code: 'date_ambiguous', said: say('This can be two days: {number} may be the month or the day. {how}', { number: a, ...HOW }) };
  return a > 12 ? dayOf(year, second, first) : dayOf(year, first, second);
}

function dayOf(year: string | undefined, month: string | number | undefined, day: string | undefined): Day {
  const two = year?.length === 2;
  return { date: { year: Number(year) + (two ? 2_000 : 0), month: Number(month), day: Number(day) }, twoDigitYear: two };
}

/** 0, which is no month, for a name that is none of the twelve. */
function monthNumber(name: string | undefined): number {
  return MONTHS[(name ?? '').toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '').slice(0, 3)] ?? 0;
}

/** Null when the time is none: "25:00", "14 pm". A bare number is an hour only with am, pm, Uhr or h behind it. */
function readTime(split: RegExpExecArray): Pick<WallTime, 'hour' | 'minute' | 'second'> | null {
  const [, , hours, minutes, seconds, suffix] = split;
  if (hours === undefined) return { hour: 0, minute: 0, second: 0 };
  if (minutes === undefined && suffix === undefined) return null;
  const half = /^([ap])/i.exec(suffix ?? '')?.[1]?.toLowerCase();
  const written = Number(hours);
  if (half !== undefined && (written < 1 || written > 12)) return null;
  const hour = half === undefined ? written : (written % 12) + (half === 'p' ? 12 : 0);
  return { hour, minute: Number(minutes ?? 0), second: Number(seconds ?? 0) };
}

function resolve(wall: WallTime, precision: ReadInstant['precision'], twoDigitYear: boolean, timeZone: string): ReadInstant | InstantFault {
  if (!isPossible(wall)) return impossible();
  const moments = momentsOf(wall, timeZone);
  // A day whose midnight the clocks skip begins an hour later.
  const [earliest] = moments.length > 0 || precision === 'time' ? moments : momentsOf({ ...wall, hour: 1 }, timeZone);
  if (earliest === undefined) return { code: 'date_impossible', said: say('The clocks were put forward over this time: it did not exist. Write another time, or add the offset from UTC.') };
  const repair = moments.length > 1 && precision === 'time' ? 'date_hour_twice' : twoDigitYear ? 'date_two_digit_year' : 'date_form';
  return { atMs: earliest, precision, repair };
}

function impossible(): InstantFault {
  return { code: 'date_impossible', said: say('There is no such day or time. {how}', HOW) };
}

/** Tells a time from a fault. */
export function isInstantFault(read: ReadInstant | InstantFault): read is InstantFault {
  return 'code' in read;
}
