import { z } from 'zod';
import { IncidentParams, instant, PageQuery, text, uuid } from '../primitives.js';
import { MeasurementRemarkBody } from './readings.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const MOST_RECORDS = 500;

export const weatherKind = z.enum(['observed', 'forecast']);
export const SiteWeatherParams = IncidentParams.extend({ siteId: uuid });

const cell = (type: string | string[], description: string) => z.unknown().optional().meta({ type, description } as Record<string, unknown>);

/** Judged one by one, as readings are. */
const SentWeather = z
  .looseObject({
    validAt: cell('string', 'The moment it holds for; RFC 3339 with an offset.'),
    airTempC: cell('number', 'Degrees Celsius.'),
    relativeHumidityPct: cell('number', 'Percent, 0 to 100.'),
    windMPerS: cell(['number', 'null'], 'Metres a second; left out when not known.'),
  })
  .meta({ id: 'SentWeather', examples: [{ validAt: '2026-05-09T12:00:00Z', airTempC: 14.2, relativeHumidityPct: 78, windMPerS: 3.1 }] });

export const RecordWeather = z
  .strictObject({
    kind: weatherKind,
    source: text(200).describe('Which service or person says so.'),
    issuedAt: instant.nullable().default(null).describe('When the forecast was issued; for forecasts alone.'),
    records: z.array(SentWeather).min(1).max(MOST_RECORDS),
  })
  .superRefine((body, context) => {
    if (body.kind === 'forecast' && body.issuedAt === null) context.addIssue({ code: 'custom', path: ['issuedAt'], message: 'say when the forecast was issued' });
    if (body.kind === 'observed' && body.issuedAt !== null) context.addIssue({ code: 'custom', path: ['issuedAt'], message: 'belongs to forecasts; leave it out of what was observed' });
  })
  .meta({ id: 'RecordWeather', examples: [{ kind: 'forecast', source: 'Selm Valley weather office', issuedAt: '2026-05-09T06:00:00Z', records: [{ validAt: '2026-05-09T12:00:00Z', airTempC: 14.2, relativeHumidityPct: 78, windMPerS: 3.1 }] }] });

export const WeatherReportBody = z
  .strictObject({
    accepted: z.int(), duplicate: z.int(), conflicting: z.int(), refused: z.int(),
    rows: z.array(z.strictObject({ row: z.int(), outcome: z.enum(['accepted', 'duplicate', 'conflicting', 'refused']), id: z.string().nullable(), remarks: z.array(MeasurementRemarkBody) })),
  })
  .meta({ id: 'WeatherReport', description: 'What became of every record, numbered from 1, and the sums.', examples: [{ accepted: 1, duplicate: 0, conflicting: 0, refused: 0, rows: [{ row: 1, outcome: 'accepted', id, remarks: [] }] }] });

export const WeatherListQuery = PageQuery.extend({ kind: weatherKind.optional(), from: instant.optional().describe('Holds for this moment or later.'), to: instant.optional().describe('Holds for a moment before this one.') });

export const WeatherRecordBody = z
  .strictObject({
    id: uuid, incidentId: uuid, siteId: uuid, kind: weatherKind, validAt: z.string(), issuedAt: z.string().nullable(), airTempC: z.number(), relativeHumidityPct: z.number(), windMPerS: z.number().nullable(), source: z.string(), recordedAt: z.string(),
  })
  .meta({
    id: 'WeatherRecord',
    description: 'Weather of a site for one moment. Of forecasts by one source the newest issue is shown.',
    examples: [{ id, incidentId: id, siteId: id, kind: 'forecast', validAt: '2026-05-09T12:00:00.000Z', issuedAt: '2026-05-09T06:00:00.000Z', airTempC: 14.2, relativeHumidityPct: 78, windMPerS: 3.1, source: 'Selm Valley weather office', recordedAt: '2026-05-09T06:05:00.000Z' }],
  });
