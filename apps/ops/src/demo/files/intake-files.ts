import { Dice } from '../dice.js';
import { MESS_RATES, momentMs } from '../calibration.js';
import type { DemoHousehold, DemoThing, DemoWorld, SiteCode } from '../world/types.js';
import { cellsOf, type DateForm, type FileColumn } from './cells.js';
import { spoil, type Mess } from './mess.js';
import { writeFile, type Dialect, type Line } from './write-file.js';

/** What stands behind a row, so that somebody who knows the truth can mend it. */
export interface RowTruth {
  thing: DemoThing;
  mess: Mess | 'duplicate' | 'cut-off';
}

/** A table as some desk sends it. */
export interface IntakeFile {
  name: string;
  site: SiteCode;
  sentAtMs: number;
  dialect: Dialect;
  dates: DateForm;
  content: Buffer;
  /** By row number as the program counts them: the header line of a table is row 1. */
  rows: ReadonlyMap<number, RowTruth>;
}

interface Desk {
  name: string;
  site: SiteCode;
  sentAtMs: number;
  dates: DateForm;
  dialect: Dialect;
}

const plain = (column: FileColumn): string => column;
const spaced = (column: FileColumn): string => column.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
const shouted = (column: FileColumn): string => spaced(column).toUpperCase().replaceAll(' ', '_');

/** Five desks, each with the habits of another program; they send what came up to then. */
const DESKS: readonly Desk[] = [
  { name: 'school-desk-early.csv', site: 'SCHOOL', sentAtMs: momentMs(1, 8, 30), dates: 'dotted', dialect: { mediaType: 'text/csv', encoding: 'utf-8-bom', delimiter: ';', lineEnd: '\r\n', header: spaced } },
  { name: 'fish-hall-tablet.ndjson', site: 'FISHHALL', sentAtMs: momentMs(1, 9), dates: 'rfc-3339', dialect: { mediaType: 'application/x-ndjson', encoding: 'utf-8', delimiter: ',', lineEnd: '\n', header: plain } },
  { name: 'school-desk-old-laptop.csv', site: 'SCHOOL', sentAtMs: momentMs(1, 9, 30), dates: 'plain', dialect: { mediaType: 'text/csv', encoding: 'windows-1252', delimiter: ';', lineEnd: '\n', header: shouted } },
  { name: 'fish-hall-desk.csv', site: 'FISHHALL', sentAtMs: momentMs(1, 10, 15), dates: 'plain', dialect: { mediaType: 'text/csv', encoding: 'windows-1252', delimiter: ',', lineEnd: '\r\n', header: spaced } },
  { name: 'school-desk-late.csv', site: 'SCHOOL', sentAtMs: momentMs(1, 10, 30), dates: 'rfc-3339', dialect: { mediaType: 'text/csv', encoding: 'utf-8', delimiter: ',', lineEnd: '\n', header: plain } },
];

/** The tables of the day. `tags` gives each thing the tag that was tied to it at the table. */
export function writeIntakeFiles(world: DemoWorld, tags: ReadonlyMap<string, string>): IntakeFile[] {
  const households = new Map(world.households.map((household) => [household.code, household]));
  const left = new Set(world.things.filter((thing) => thing.way === 'file'));
  return DESKS.map((desk, at) => {
    const isLastOfSite = !DESKS.slice(at + 1).some((later) => later.site === desk.site);
    // A desk closes its list a while before it sends it; the last one takes all that is left.
    const mine = [...left].filter((thing) => thing.site === desk.site && (isLastOfSite || thing.arrivedAtMs < desk.sentAtMs - 15 * 60_000));
    for (const thing of mine) left.delete(thing);
    return writeDesk(world.seed, desk, mine, households, tags);
  }).filter((file) => file.rows.size > 0);
}

function writeDesk(seed: number, desk: Desk, things: readonly DemoThing[], households: ReadonlyMap<string, DemoHousehold>, tags: ReadonlyMap<string, string>): IntakeFile {
  const lines: Line[] = [];
  const truths: RowTruth[] = [];
  const again: Line[] = [];
  const againTruths: RowTruth[] = [];
  for (const [at, thing] of things.entries()) {
    const dice = Dice.of(seed, 'mess', thing.key);
    const clean = cellsOf(thing, households.get(thing.household)!, tags.get(thing.key)!, desk.dates);
    // A tablet that lost its power in the middle of a line; once is enough.
    const cutOff = desk.dialect.mediaType === 'application/x-ndjson' && at === 2;
    const { cells, mess } = cutOff ? { cells: clean, mess: 'cut-off' as const } : spoil(clean, dice);
    lines.push({ cells, cutOff });
    truths.push({ thing, mess });
    if (mess === 'none' && dice.chance(MESS_RATES.duplicate)) {
      again.push({ cells, cutOff: false });
      againTruths.push({ thing, mess: 'duplicate' });
    }
  }
  const firstRow = desk.dialect.mediaType === 'text/csv' ? 2 : 1;
  const rows = new Map([...truths, ...againTruths].map((truth, index) => [index + firstRow, truth]));
  return { name: desk.name, site: desk.site, sentAtMs: desk.sentAtMs, dialect: desk.dialect, dates: desk.dates, content: writeFile([...lines, ...again], desk.dialect), rows };
}
