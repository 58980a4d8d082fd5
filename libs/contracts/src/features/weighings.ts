import { z } from 'zod';
import { instant, optionalText, uuid } from '../primitives.js';
import { MeasurementRemarkBody } from './readings.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const DOUBTS = ['heavier-than-before', 'heavier-than-such-things', 'lighter-than-such-things'] as const;

export const RecordWeighing = z
  .strictObject({
    scaleKg: z.number().positive().max(2_000).describe('What the scale shows with everything on it, in kilograms.'),
    tareKg: z.number().min(0).max(2_000).default(0).describe('Tub, board or hanger that is on the scale with the thing.'),
    resolutionKg: z.number().positive().max(50).default(0.1).describe('Smallest step of the scale; a weight that went up by more is asked about.'),
    weighedAt: instant,
    personId: uuid.nullable().default(null).describe('Who weighed it.'),
    dryingPlaceId: uuid.nullable().default(null).describe('The drying place it came from and goes back to.'),
    note: optionalText(2_000),
  })
  .meta({ id: 'RecordWeighing', examples: [{ scaleKg: 7.4, tareKg: 0.6, resolutionKg: 0.1, weighedAt: '2026-05-09T14:30:00Z' }] });
export type RecordWeighing = z.output<typeof RecordWeighing>;

/** A row of many: a weighing with the tag or id of its thing. Each is judged by itself. */
export const RecordWeighingRow = z.strictObject({ item: z.string().trim().min(1).max(64), ...RecordWeighing.shape });

/** One request is one transaction, so it stays small; a longer slip is sent in parts. Our own choice. */
const MOST_WEIGHINGS = 100;
const OUTCOMES = ['accepted', 'doubtful', 'duplicate', 'conflicting', 'refused'] as const;
const cell = (type: string | string[], description: string) => z.unknown().optional().meta({ type, description } as Record<string, unknown>);

/** Its members are not bound to types here: one bad value does not cost the others. */
const SentWeighing = z
  .looseObject({
    item: cell('string', 'Tag or id of the thing.'), scaleKg: cell('number', 'What the scale shows with everything on it, in kilograms.'), tareKg: cell('number', 'Tub, board or hanger that is on the scale with the thing; 0 when left out.'),
    resolutionKg: cell('number', 'Smallest step of the scale; 0.1 when left out.'), weighedAt: cell('string', 'RFC 3339 with an offset.'), personId: cell(['string', 'null'], 'Who weighed it.'),
    dryingPlaceId: cell(['string', 'null'], 'The drying place it came from and goes back to.'), note: cell('string', 'Up to 2,000 characters.'),
  })
  .meta({ id: 'SentWeighing', description: 'A weighing of a thing that is named by its tag or id.', examples: [{ item: 'BBBC-BBB-47', scaleKg: 1.42, resolutionKg: 0.02, weighedAt: '2026-05-09T14:30:00Z' }] });

export const RecordWeighings = z
  .strictObject({ weighings: z.array(SentWeighing).min(1).max(MOST_WEIGHINGS) })
  .meta({ id: 'RecordWeighings', examples: [{ weighings: [{ item: 'BBBC-BBB-47', scaleKg: 1.42, resolutionKg: 0.02, weighedAt: '2026-05-09T14:30:00Z' }] }] });

export const WeighingsReportBody = z
  .strictObject({
    accepted: z.int(), doubtful: z.int(), duplicate: z.int(), conflicting: z.int(), refused: z.int(),
    rows: z.array(z.strictObject({ row: z.int().describe('From 1.'), outcome: z.enum(OUTCOMES), itemId: uuid.nullable(), id: uuid.nullable(), remarks: z.array(MeasurementRemarkBody) })),
  })
  .meta({
    id: 'WeighingsReport',
    description: 'What became of every weighing, and the sums. `accepted`; `doubtful`: kept and asked about; `duplicate`: it was there already; `conflicting`: the thing has another weight for that moment, which stays; `refused`: it cannot be so, or names nothing of the incident.',
    examples: [{ accepted: 1, doubtful: 0, duplicate: 0, conflicting: 0, refused: 1, rows: [{ row: 1, outcome: 'accepted', itemId: id, id, remarks: [] }, { row: 2, outcome: 'refused', itemId: null, id: null, remarks: [{ code: 'reference_unknown', member: 'item', text: 'No item with this tag or id belongs to the incident.' }] }] }],
  });

export const WeighingBody = z
  .strictObject({
    id: uuid, incidentId: uuid, itemId: uuid, scaleKg: z.number(), tareKg: z.number(), massKg: z.number(), resolutionKg: z.number(), weighedAt: z.string(), personId: uuid.nullable(), dryingPlaceId: uuid.nullable(),
    note: z.string(), state: z.enum(['accepted', 'doubtful']), doubt: z.strictObject({ code: z.enum(DOUBTS), text: z.string() }).nullable(), recordedAt: z.string(),
  })
  .meta({
    id: 'Weighing',
    description: 'A weighing of a thing or a whole lot; `massKg` is the thing alone. `doubt` asks what a person should look at; the weighing is kept all the same.',
    examples: [{ id, incidentId: id, itemId: id, scaleKg: 7.4, tareKg: 0.6, massKg: 6.8, resolutionKg: 0.1, weighedAt: '2026-05-09T14:30:00.000Z', personId: null, dryingPlaceId: null, note: '', state: 'accepted', doubt: null, recordedAt: '2026-05-09T14:31:00.000Z' }],
  });
