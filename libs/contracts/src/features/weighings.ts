import { z } from 'zod';
import { instant, optionalText, uuid } from '../primitives.js';

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
