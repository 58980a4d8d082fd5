/** One row as it was sent to a reading of a place, or to everything that is wrong with it. */
import { say } from '#care';
import { type CalibrationValues, readingFaults, type ReadingTimes } from '#climate';
import { CLIMATE_PLACE_KINDS, type ClimatePlace, type NamedClimatePlace, type NewReading, type ReadingSource, type SensorRecord } from '../../ports/climate-records-store.js';
import { faultRemark, remark, type Remark } from './measurement-words.js';
import { type Form, type Read, readMoment, readName, readNumber, shorten } from './read-cells.js';

/** Columns of a table of readings and members of one in JSON, in the order in which we would print them. */
export const READING_COLUMNS = ['sensor', 'placeKind', 'place', 'measuredAt', 'airTempC', 'relativeHumidityPct'] as const;
export type ReadingColumn = (typeof READING_COLUMNS)[number];

/** A row as it was sent. */
export interface SentReading {
  /** From 1 in JSON; in a table as a spreadsheet shows it, so that the header line is 1. */
  row: number;
  cells: Readonly<Record<string, unknown>>;
  /** The row could not be taken apart. */
  fault: Remark | null;
}

/** What rows are read with. */
export interface ReadingFacts extends ReadingTimes {
  incidentId: string;
  form: Form;
  /** Who sends readings of sensors. */
  source: Exclude<ReadingSource, 'hand'>;
  sensors: readonly SensorRecord[];
  places: readonly NamedClimatePlace[];
  calibration: CalibrationValues;
}

/** A reading without its id, or what is wrong; one of the two. */
export type Resolved = { reading: Omit<NewReading, 'id' | 'recordedAtMs'> } | { remarks: Remark[] };

/** Reads one row; it changes nothing. */
export function resolveReading(sent: SentReading, facts: ReadingFacts): Resolved {
  if (sent.fault !== null) return { remarks: [sent.fault] };
  const { cells } = sent;
  const moment = required(readMoment(cells['measuredAt'], 'measuredAt', facts.form), remark('time_missing', 'measuredAt', say('Say when it was measured.')));
  const temperature = required(readNumber(cells['airTempC'], 'airTempC', facts.form), remark('temperature_missing', 'airTempC', say('The temperature is missing.')));
  const humidity = readNumber(cells['relativeHumidityPct'], 'relativeHumidityPct', facts.form) ?? { value: null };
  const where = resolvePlace(cells, facts);
  const remarks = [...unknownMembers(cells), ...[where, moment, temperature, humidity].flatMap((read) => ('remark' in read ? [read.remark] : []))];
  if (remarks.length > 0 || 'remark' in where || 'remark' in moment || 'remark' in temperature || 'remark' in humidity) return { remarks };
  const reading = { measuredAtMs: moment.value, airTempC: temperature.value, relativeHumidityPct: humidity.value };
  const faults = readingFaults(reading, facts, facts.calibration).map(faultRemark);
  const { place, sensor } = where.value;
  if (sensor !== null && sensor.withdrawnAtMs !== null && moment.value >= sensor.withdrawnAtMs) faults.push(remark('sensor_withdrawn', 'sensor', say('The sensor “{name}” was out of use at that moment. Put it back into service if it measures again.', { name: sensor.code })));
  if (faults.length > 0) return { remarks: faults };
  return { reading: { incidentId: facts.incidentId, place, sensorId: sensor?.id ?? null, ...reading, source: sensor === null ? 'hand' : facts.source } };
}

type Present<T> = { value: T } | { remark: Remark };

function required<T>(read: Read<T>, missing: Remark): Present<T> {
  return read ?? { remark: missing };
}

function unknownMembers(cells: Readonly<Record<string, unknown>>): Remark[] {
  const known = new Set<string>(READING_COLUMNS);
  return Object.keys(cells).filter((name) => !known.has(name)).slice(0, 5).map((name) => remark('member_unknown', shorten(name), say('“{name}” is no part of a reading. Check its spelling, or leave it out.', { name: shorten(name) })));
}

/** By its sensor, or by hand with the kind and the code or id of the place. */
function resolvePlace(cells: Readonly<Record<string, unknown>>, facts: ReadingFacts): Present<{ place: ClimatePlace; sensor: SensorRecord | null }> {
  const [sensorName, kind, name] = [readName(cells['sensor']), readName(cells['placeKind']), readName(cells['place'])];
  if (sensorName !== null) {
    if (kind !== null || name !== null) return { remark: remark('where_twice', 'place', say('Name the sensor or the place, not both.')) };
    const sensor = facts.sensors.find((one) => one.code === sensorName || one.id === sensorName.toLowerCase());
    return sensor === undefined ? { remark: remark('sensor_unknown', 'sensor', say('No sensor of this incident goes by “{name}”. Register it first, or correct the code.', { name: shorten(sensorName) })) } : { value: { place: sensor.place, sensor } };
  }
  if (kind === null || name === null) return { remark: remark('where_missing', 'sensor', say('Name the sensor, or the kind and the code of the place.')) };
  if (!CLIMATE_PLACE_KINDS.some((one) => one === kind)) return { remark: remark('place_kind_unknown', 'placeKind', say('The kind of a place is one of: drying-room, freezer, zone, outdoors.')) };
  const found = facts.places.filter((place) => place.kind === kind && (place.code === name || place.id === name.toLowerCase()));
  const [place] = found;
  if (place === undefined) return { remark: remark('place_unknown', 'place', say('No place of this kind goes by “{name}” in this incident.', { name: shorten(name) })) };
  if (found.length > 1) return { remark: remark('place_ambiguous', 'place', say('More than one place of this kind goes by “{name}”. Give its id.', { name: shorten(name) })) };
  return { value: { place: { kind: place.kind, id: place.id }, sensor: null } };
}
