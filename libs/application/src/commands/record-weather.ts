import { render, say } from '#care';
import { readingFaults } from '#climate';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { askForPlan } from '../climate/records/keep-readings.js';
import { faultRemark, type Remark, remark, weatherConflict } from '../climate/records/measurement-words.js';
import { readMoment, readNumber, shorten } from '../climate/records/read-cells.js';
import { ringSite } from '../climate/ring-room.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { IncidentFacts } from '../ports/place-store.js';
import type { WeatherRecord } from '../ports/weather-store.js';
import type { Stores } from '../ports/work.js';

export interface RecordWeatherInput {
  incidentId: string;
  siteId: string;
  source: string;
  kind: WeatherRecord['kind'];
  /** Given for forecasts alone. */
  issuedAt: string | null;
  /** Members as they were sent. */
  records: readonly Readonly<Record<string, unknown>>[];
}

export const WEATHER_OUTCOMES = ['accepted', 'duplicate', 'conflicting', 'refused'] as const;

/** What became of one record. */
export interface WeatherOutcome {
  row: number;
  outcome: (typeof WEATHER_OUTCOMES)[number];
  id: string | null;
  remarks: Remark[];
}

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;
const CLOCK_SLACK_MS = 5 * MINUTE_MS;
/** Own choices: what is called a forecast reaches no further, and no wind on record near the ground is faster than 113 m/s (from memory). */
const FORECAST_REACHES_D = 16;
const WIND_MAX_M_PER_S = 113;
/** The hour in which a forecast is made often stands in it as well. */
const ISSUED_WITHIN_MS = 60 * MINUTE_MS;

const MEMBERS: ReadonlySet<string> = new Set(['validAt', 'airTempC', 'relativeHumidityPct', 'windMPerS']);

/**
 * Takes weather of a site, observed or forecast, entered by hand or sent by a partner. A bad record is refused and does not hold
 * up the others; the same again is kept once; a later issue goes before an earlier one. The newest observation of the incident
 * becomes the outdoor air that plans reckon with, and the rooms of the site are reckoned anew. @throws Problem measurement_refused when nothing could be kept, and nothing was there already
 */
export async function recordWeather(stores: Stores, call: UseCaseCall, input: RecordWeatherInput): Promise<WeatherOutcome[]> {
  const incident = await openIncidentOf(stores, input.incidentId);
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== incident.id) throw notFound('site');
  const issuedAtMs = issueOf(input, call.env.nowMs);
  const calibration = await climateCalibrationInForce(stores);
  const read = input.records.map((sent) => toRecord(call, input, issuedAtMs, sent));
  await stores.weather.lockSite(site.id);
  const records = read.map((one) => ('remarks' in one ? one : withFaults(one, incident, call.env.nowMs, calibration)));
  const there = await stores.weather.known(records.flatMap((one) => ('remarks' in one ? [] : [one])));
  const fresh: WeatherRecord[] = [];
  const outcomes = records.map((one, at) => outcomeOf(at + 1, one, there, fresh));
  if (outcomes.every(({ outcome }) => outcome === 'refused' || outcome === 'conflicting')) throw nothingKept(outcomes);
  await stores.weather.insert(fresh);
  const outdoors = fresh.some(({ kind }) => kind === 'observed') ? await stores.climateRecords.refreshOutdoorAir(incident.id, call.env.nowMs) : null;
  if (fresh.length > 0) await ringSite(stores, call, incident.id, site.id);
  await askForPlan(stores, call, incident.id, { before: [], now: [], outdoors });
  return outcomes;
}

function issueOf({ kind, issuedAt }: RecordWeatherInput, nowMs: number): number | null {
  if (kind === 'observed' || issuedAt === null) return null;
  const issuedAtMs = Date.parse(issuedAt);
  if (issuedAtMs <= nowMs + CLOCK_SLACK_MS) return issuedAtMs;
  throw new Problem('validation_failed', 'The forecast was issued in the future. Check the date and the offset from UTC. Nothing was changed.', {
    errors: [{ detail: `lies after the present time, ${new Date(nowMs).toISOString()}`, code: 'in_future', pointer: '#/issuedAt' }],
  });
}

type Read = WeatherRecord | { remarks: Remark[] };

function toRecord(call: UseCaseCall, input: RecordWeatherInput, issuedAtMs: number | null, sent: Readonly<Record<string, unknown>>): Read {
  const json = { kind: 'json' } as const;
  const moment = readMoment(sent['validAt'], 'validAt', json) ?? { remark: remark('time_missing', 'validAt', say('Say for which moment it holds.')) };
  const temperature = readNumber(sent['airTempC'], 'airTempC', json) ?? { remark: remark('temperature_missing', 'airTempC', say('The temperature is missing.')) };
  const humidity = readNumber(sent['relativeHumidityPct'], 'relativeHumidityPct', json) ?? { remark: remark('humidity_missing', 'relativeHumidityPct', say('The relative humidity is missing.')) };
  const wind = readNumber(sent['windMPerS'], 'windMPerS', json) ?? { value: null };
  const unknown = Object.keys(sent).filter((name) => !MEMBERS.has(name)).slice(0, 5).map((name) => remark('member_unknown', shorten(name), say('“{name}” is no part of a weather record. Check its spelling, or leave it out.', { name: shorten(name) })));
  const remarks = [...unknown, ...[moment, temperature, humidity, wind].flatMap((one) => ('remark' in one ? [one.remark] : []))];
  if (remarks.length > 0 || 'remark' in moment || 'remark' in temperature || 'remark' in humidity || 'remark' in wind) return { remarks };
  return {
    id: call.env.newId(), incidentId: input.incidentId, siteId: input.siteId, kind: input.kind, validAtMs: moment.value, issuedAtMs, airTempC: temperature.value, relativeHumidityPct: humidity.value,
    windMPerS: wind.value, source: input.source, recordedAtMs: call.env.nowMs,
  };
}

/** What cannot be: the air as in a reading, and the moment for what it is. */
function withFaults(record: WeatherRecord, incident: IncidentFacts, nowMs: number, calibration: Parameters<typeof readingFaults>[2]): Read {
  const forecast = record.issuedAtMs !== null;
  const times = { nowMs: forecast ? Number.POSITIVE_INFINITY : nowMs, floodAtMs: incident.floodAtMs };
  const remarks = readingFaults({ ...record, measuredAtMs: record.validAtMs }, times, calibration).map(faultRemark).map((one) => (one.member === 'measuredAt' ? { ...one, member: 'validAt' } : one));
  if (record.issuedAtMs !== null && record.validAtMs < record.issuedAtMs - ISSUED_WITHIN_MS) remarks.push(remark('before_issue', 'validAt', say('This hour was over when the forecast was issued. Send it as observed, if it was.')));
  if (record.issuedAtMs !== null && record.validAtMs > record.issuedAtMs + FORECAST_REACHES_D * DAY_MS) remarks.push(remark('too_far_ahead', 'validAt', say('No forecast reaches so far ahead ({days} days). Look at the date.', { days: FORECAST_REACHES_D })));
  if (record.windMPerS !== null && (record.windMPerS < 0 || record.windMPerS > WIND_MAX_M_PER_S)) remarks.push(remark('wind_impossible', 'windMPerS', say('A wind of {value} m/s cannot be. Look at the unit: it is metres a second.', { value: record.windMPerS })));
  return remarks.length > 0 ? { remarks } : record;
}

const momentOf = (record: WeatherRecord) => JSON.stringify([record.siteId, record.kind, record.validAtMs, record.source, record.issuedAtMs]);

/** Holds a record against those that are kept and those before it, which it may join. */
function outcomeOf(row: number, one: Read, there: readonly WeatherRecord[], fresh: WeatherRecord[]): WeatherOutcome {
  if ('remarks' in one) return { row, outcome: 'refused', id: null, remarks: one.remarks };
  const known = [...there, ...fresh].find((other) => momentOf(other) === momentOf(one));
  if (known === undefined) {
    fresh.push(one);
    return { row, outcome: 'accepted', id: one.id, remarks: [] };
  }
  const same = known.airTempC === one.airTempC && known.relativeHumidityPct === one.relativeHumidityPct && known.windMPerS === one.windMPerS;
  return { row, outcome: same ? 'duplicate' : 'conflicting', id: known.id, remarks: same ? [] : [weatherConflict(known, one)] };
}

function nothingKept(outcomes: readonly WeatherOutcome[]): Problem {
  const errors = outcomes.slice(0, 50).flatMap(({ row, remarks }) => remarks.map(({ code, member, text }) => ({ detail: render(text, 'en'), code, pointer: `#/records/${row - 1}/${member}` })));
  const code = outcomes.every(({ outcome }) => outcome === 'conflicting') ? 'measurement_conflicts' : 'measurement_refused';
  const detail = outcomes.length === 1 ? errors.map((error) => error.detail).join(' ') : `None of the ${outcomes.length} records can be kept; see errors.`;
  return new Problem(code, `${detail} Nothing was changed.`, { errors, members: { rows: outcomes.slice(0, 50) } });
}
