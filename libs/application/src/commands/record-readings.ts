import { render } from '#care';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { type KeptReading, keepReadings } from '../climate/records/keep-readings.js';
import { readingConflict, readingDoubtWords, type Remark, remark } from '../climate/records/measurement-words.js';
import { readName } from '../climate/records/read-cells.js';
import { readReadingsTable } from '../climate/records/readings-table.js';
import { type ReadingFacts, resolveReading, type SentReading } from '../climate/records/resolve-reading.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { NewReading } from '../ports/climate-records-store.js';
import type { Stores } from '../ports/work.js';

export interface RecordReadingsInput {
  incidentId: string;
  /** Who sends readings of sensors: their own logger, or the system of a partner. */
  source: 'sensor' | 'partner';
  /** Members as they were sent, or the bytes of a table. */
  readings: readonly Readonly<Record<string, unknown>>[] | Uint8Array;
}

export const READING_OUTCOMES = ['accepted', 'doubtful', 'duplicate', 'conflicting', 'refused'] as const;

/** What became of one row. */
export interface ReadingOutcome {
  row: number;
  outcome: (typeof READING_OUTCOMES)[number];
  /** The reading that is kept, of a duplicate or a conflict the one that was there; null for what was refused. */
  id: string | null;
  late: boolean;
  becameCurrent: boolean;
  remarks: Remark[];
}

/**
 * Takes readings of sensors and of people, many at once. A bad row is refused with its reasons and does not hold up the others;
 * the same reading again is kept once. @throws Problem measurement_refused when nothing could be kept, and nothing was there already
 */
export async function recordReadings(stores: Stores, call: UseCaseCall, input: RecordReadingsInput): Promise<ReadingOutcome[]> {
  const incident = await openIncidentOf(stores, input.incidentId);
  const sent = rowsOf(input);
  const calibration = await climateCalibrationInForce(stores);
  const facts: ReadingFacts = {
    incidentId: incident.id, source: input.source, calibration, nowMs: call.env.nowMs, floodAtMs: incident.floodAtMs,
    form: input.readings instanceof Uint8Array ? { kind: 'table', timeZone: await stores.imports.timeZone() } : { kind: 'json' },
    sensors: await stores.climateRecords.sensorsNamed(incident.id, [...new Set(sent.flatMap(({ cells }) => readName(cells['sensor']) ?? []))]),
    places: sent.some(({ cells }) => readName(cells['place']) !== null) ? await stores.climateRecords.places(incident.id) : [],
  };
  const resolved = sent.map((row) => ({ row: row.row, ...resolveReading(row, facts) }));
  const readings = resolved.flatMap((one): NewReading[] => ('reading' in one ? [{ ...one.reading, id: call.env.newId(), recordedAtMs: call.env.nowMs }] : []));
  const kept = await keepReadings(stores, call, incident.id, readings, calibration);
  let next = 0;
  const outcomes = resolved.map((one) => {
    if ('remarks' in one) return refused(one.row, one.remarks);
    const reading = readings[next];
    const became = kept[next];
    next += 1;
    if (!reading || !became) throw new Error('a reading without its outcome');
    return toOutcome(one.row, reading, became);
  });
  if (outcomes.every(({ outcome }) => outcome === 'refused' || outcome === 'conflicting')) throw nothingKept(outcomes, input.readings instanceof Uint8Array);
  return outcomes;
}

function rowsOf({ readings }: RecordReadingsInput): SentReading[] {
  if (!(readings instanceof Uint8Array)) return readings.map((cells, at) => ({ row: at + 1, cells, fault: null }));
  const rows = readReadingsTable(readings);
  if (!('faults' in rows)) return rows;
  const errors = rows.faults.map(({ code, said }) => ({ detail: render(said, 'en'), code, pointer: '#' }));
  throw new Problem('validation_failed', `${errors.map(({ detail }) => detail).join(' ')} Nothing was changed.`, { errors, members: { inWords: rows.faults.map(({ said }) => said) } });
}

function refused(row: number, remarks: Remark[]): ReadingOutcome {
  return { row, outcome: 'refused', id: null, late: false, becameCurrent: false, remarks };
}

function toOutcome(row: number, sent: NewReading, { outcome, record, late, becameCurrent }: KeptReading): ReadingOutcome {
  const remarks = outcome === 'conflicting' ? [readingConflict(record, sent)] : record.doubt === null ? [] : [remark(record.doubt, 'airTempC', readingDoubtWords(record.doubt))];
  return { row, outcome, id: record.id, late, becameCurrent, remarks };
}

/** At most this many rows are named in a problem. */
const NAMED_AT_MOST = 50;

/** Every reading was bad: whoever looks only at the status must learn it. */
function nothingKept(outcomes: readonly ReadingOutcome[], table: boolean): Problem {
  const named = outcomes.slice(0, NAMED_AT_MOST);
  const errors = named.flatMap(({ row, remarks }) => remarks.map(({ code, member, text }) => ({ detail: `${table ? `Row ${row}: ` : ''}${render(text, 'en')}`, code, pointer: table || member === '' ? '#' : `#/readings/${row - 1}/${member}` })));
  const code = outcomes.every(({ outcome }) => outcome === 'conflicting') ? 'measurement_conflicts' : 'measurement_refused';
  const detail = outcomes.length === 1 ? errors.map((error) => error.detail).join(' ') : `None of the ${outcomes.length} readings can be kept; see errors.`;
  return new Problem(code, `${detail} Nothing was changed.`, { errors, members: { rows: named } });
}
