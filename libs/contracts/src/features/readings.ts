import { z } from 'zod';
import { instant, PageQuery, uuid } from '../primitives.js';
import { climatePlaceKind } from './sensors.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

const MOST_IN_JSON = 500;
const OUTCOMES = ['accepted', 'doubtful', 'duplicate', 'conflicting', 'refused'] as const;
const DOUBTS = ['unit', 'jump', 'saturated', 'stuck'] as const;

/** What the columns of a table of readings mean; the text that partners read in the API documentation. */
export const READINGS_DESCRIPTION = `Readings as \`application/json\` (at most ${MOST_IN_JSON}), or a table as \`text/csv\` (header line; comma, semicolon or tab; UTF-8, UTF-16 with its mark, or
Windows-1252; at most 3,000 rows). Columns of the table, whatever their order, with the same names as the members in JSON; columns that are not ours are left alone:

* \`sensor\`: code or id of a registered sensor. Leave it blank for what a person read and give \`placeKind\` (\`drying-room\`, \`freezer\`, \`zone\`, \`outdoors\`) and \`place\` (its code or id; for a zone its kind, for the open air the code of the site).
* \`measuredAt\` (required): RFC 3339; in a table also \`2026-05-09 06:30\`, \`09.05.2026 06:30\` and the like in the time zone of the network. What could be two days or two hours is refused, never guessed.
* \`airTempC\` (required): degrees Celsius, the number alone; in a table a decimal comma will do.
* \`relativeHumidityPct\`: 0 to 100; blank for a thermometer.`;

const cell = (type: string | string[], description: string) => z.unknown().optional().meta({ type, description } as Record<string, unknown>);

/** Each row is judged by itself, so its members are not bound to types here: one bad value does not cost the others. */
const SentReading = z
  .looseObject({
    sensor: cell(['string', 'null'], 'Code or id of a registered sensor.'),
    placeKind: cell(['string', 'null'], 'For a reading by hand: drying-room, freezer, zone or outdoors.'),
    place: cell(['string', 'null'], 'For a reading by hand: code or id of the place.'),
    measuredAt: cell('string', 'RFC 3339 with an offset.'),
    airTempC: cell('number', 'Degrees Celsius, -40 to 60.'),
    relativeHumidityPct: cell(['number', 'null'], 'Percent, 0 to 100; left out for a thermometer.'),
  })
  .meta({ id: 'SentReading', description: 'A reading of a sensor, or of a person at a place.', examples: [{ sensor: 'T-07', measuredAt: '2026-05-09T06:30:00Z', airTempC: 21.4, relativeHumidityPct: 63 }] });

export const RecordReadings = z
  .strictObject({ readings: z.array(SentReading).min(1).max(MOST_IN_JSON) })
  .meta({ id: 'RecordReadings', examples: [{ readings: [{ sensor: 'T-07', measuredAt: '2026-05-09T06:30:00Z', airTempC: 21.4, relativeHumidityPct: 63 }, { placeKind: 'freezer', place: 'F1', measuredAt: '2026-05-09T06:35:00Z', airTempC: -17.5 }] }] });

export const RecordReadingsQuery = z.strictObject({ source: z.enum(['sensor', 'partner']).default('sensor').describe('Who sends readings of sensors: their own logger, or the system of a partner.') });

export const MeasurementRemarkBody = z
  .strictObject({ code: z.string(), member: z.string(), text: z.string() })
  .meta({ id: 'MeasurementRemark', description: 'Why a measurement was refused, conflicts, or is in doubt; `member` is the member or column, blank for the whole row.', examples: [{ code: 'temperature_fahrenheit', member: 'airTempC', text: '70.2 °C is too hot for any air here. If it is °F, it is 21.2 °C: set the unit of the logger to °C, or convert the value, and send it again.' }] });

export const ReadingsReportBody = z
  .strictObject({
    accepted: z.int(), doubtful: z.int(), duplicate: z.int(), conflicting: z.int(), refused: z.int(),
    rows: z.array(
      z.strictObject({
        row: z.int().describe('From 1; in a table as a spreadsheet shows it, so that the header line is 1.'),
        outcome: z.enum(OUTCOMES),
        id: z.string().nullable(),
        late: z.boolean().describe('A later reading of the same place was there already.'),
        becameCurrent: z.boolean().describe('It is the newest believed air of its place now.'),
        remarks: z.array(MeasurementRemarkBody),
      }),
    ),
  })
  .meta({
    id: 'ReadingsReport',
    description:
      'What became of every reading, and the sums. `accepted`; `doubtful`: kept, but not reckoned with until a person or the next reading confirms it; `duplicate`: it was there already, to the digit; `conflicting`: the sensor has other values for that moment, which stay; `refused`: it cannot be so.',
    examples: [
      {
        accepted: 1, doubtful: 0, duplicate: 0, conflicting: 0, refused: 1,
        rows: [
          { row: 1, outcome: 'accepted', id, late: false, becameCurrent: true, remarks: [] },
          { row: 2, outcome: 'refused', id: null, late: false, becameCurrent: false, remarks: [{ code: 'humidity_impossible', member: 'relativeHumidityPct', text: '104 % of relative humidity cannot be: it goes from 0 to 100 %.' }] },
        ],
      },
    ],
  });

export const ReadingListQuery = PageQuery.extend({
  placeKind: climatePlaceKind.optional(),
  placeId: uuid.optional(),
  sensorId: uuid.optional(),
  from: instant.optional().describe('Measured at this moment or later.'),
  to: instant.optional().describe('Measured before this moment.'),
  state: z.enum(['accepted', 'doubtful']).optional(),
}).refine((query) => (query.placeKind === undefined) === (query.placeId === undefined), { message: 'give the kind and the id of the place together, or neither', path: ['placeId'] });

export const ClimateReadingBody = z
  .strictObject({
    id: uuid, incidentId: uuid, placeKind: climatePlaceKind, placeId: uuid, sensorId: uuid.nullable(), sequence: z.int(), measuredAt: z.string(), airTempC: z.number(), relativeHumidityPct: z.number().nullable(),
    recordedAt: z.string(), source: z.enum(['hand', 'sensor', 'partner']), state: z.enum(['accepted', 'doubtful']), doubt: z.strictObject({ code: z.enum(DOUBTS), text: z.string() }).nullable(),
  })
  .meta({
    id: 'ClimateReading',
    description: 'A reading of air. `sequence` is its number in the order of recording at its place. What is `doubtful` is possible but improbable, by limits of our own calibration; a later reading may settle it.',
    examples: [{ id, incidentId: id, placeKind: 'drying-room', placeId: id, sensorId: id, sequence: 41, measuredAt: '2026-05-09T06:30:00.000Z', airTempC: 21.4, relativeHumidityPct: 63, recordedAt: '2026-05-09T06:31:02.000Z', source: 'sensor', state: 'accepted', doubt: null }],
  });
