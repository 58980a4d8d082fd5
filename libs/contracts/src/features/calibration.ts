import { z } from 'zod';
import { code, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

const LIBRARIES = ['people', 'climate', 'alarms', 'planning', 'care', 'sight', 'retention', 'messages', 'found'] as const;

export const CalibrationParams = z.strictObject({ library: z.enum(LIBRARIES), key: code });

export const SetCalibration = z
  .strictObject({
    /** In the unit of the number; null for its default again. */
    value: z.number().nullable(),
    reason: text(2_000, 3),
    /** The lead who answers for it; of any incident of the network. */
    personId: uuid,
  })
  .meta({ id: 'SetCalibration', examples: [{ value: 11, reason: 'Our law gives volunteers 11 hours on shift at most.', personId: id }] });
export type SetCalibration = z.output<typeof SetCalibration>;

const decision = {
  id, number: 1, library: 'people' as const, key: 'consecutiveHoursMax', value: 11, reason: 'Our law gives volunteers 11 hours on shift at most.', decidedBy: { id, name: 'Lead one' }, decidedAt: '2026-05-09T09:00:00.000Z',
};

export const CalibrationDecisionBody = z
  .strictObject({
    id: z.string(),
    /** From 1 over all numbers of the network; the newest is the ETag of the calibration. */
    number: z.int(),
    library: z.enum(LIBRARIES),
    key: z.string(),
    /** Null: the default again. */
    value: z.number().nullable(),
    reason: z.string(),
    /** Null for a key that is limited to another incident than the lead's. */
    decidedBy: z.strictObject({ id: z.string(), name: z.string() }).nullable(),
    decidedAt: z.string(),
  })
  .meta({ id: 'CalibrationDecision', description: 'One decision of a network about one number of our own calibration.', examples: [decision] });

const CalibrationNumberBody = z.strictObject({
  library: z.enum(LIBRARIES),
  key: z.string(),
  /** As a symbol, or in words in the language of the answer. */
  unit: z.string(),
  default: z.number(),
  inForce: z.number(),
  min: z.number(),
  max: z.number(),
  /** Only whole numbers make sense. */
  whole: z.boolean(),
  /** None of these numbers is a published fact. */
  mark: z.literal('own-calibration'),
  /** Why the default is what it is, and what it leans on; in the language of the answer. */
  why: z.string(),
  /** The newest decision about it, that to return to the default as well; null when there was none. */
  decision: CalibrationDecisionBody.nullable(),
  /** A value was decided that this version of the program cannot take any more; the default stands. */
  lapsed: z.boolean(),
});

export const CalibrationBody = z
  .strictObject({
    /** Number of the newest decision, 0 for none; also the ETag. */
    number: z.int(),
    numbers: z.array(CalibrationNumberBody),
  })
  .meta({
    id: 'Calibration',
    description: 'Every number of our own calibration that a network may set: none is a published fact, each says what it leans on. Measure, then set.',
    examples: [
      {
        number: 1,
        numbers: [{ library: 'people', key: 'consecutiveHoursMax', unit: 'h', default: 13, inForce: 11, min: 4, max: 16, whole: false, mark: 'own-calibration', why: 'Most hours on shift without a real break.', decision, lapsed: false }],
      },
    ],
  });
