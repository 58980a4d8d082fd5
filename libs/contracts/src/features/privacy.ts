import { z } from 'zod';
import { text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const REASONS = ['owner-asked', 'retention-ended', 'registered-in-error'] as const;

export const LegalHoldParams = z.strictObject({ legalHoldId: uuid });

export const EraseHousehold = z
  .strictObject({
    personId: uuid.meta({ description: 'The lead who decides it.' }),
    reason: z.enum(['owner-asked', 'registered-in-error']),
  })
  .meta({ id: 'EraseHousehold', examples: [{ personId: id, reason: 'owner-asked' }] });

export const ErasureBody = z
  .strictObject({
    id: z.string(), householdId: z.string(), incidentId: z.string(), reason: z.enum(REASONS), decidedBy: z.string().nullable(), erasedAt: z.string(),
    items: z.int(), files: z.int(), wordsInChain: z.int(),
  })
  .meta({
    id: 'HouseholdErasure',
    description: 'That a household was erased, by whom and when. `items` and `files` count what belonged to it. `wordsInChain` counts custody events of earlier versions of the program whose words a hash covers: nothing can take those out.',
    examples: [{ id, householdId: id, incidentId: id, reason: 'owner-asked', decidedBy: id, erasedAt: '2026-11-09T08:00:00.000Z', items: 12, files: 30, wordsInChain: 0 }],
  });

export const PlaceLegalHold = z.strictObject({ personId: uuid, reason: text(1_000, 3) }).meta({ id: 'PlaceLegalHold', examples: [{ personId: id, reason: 'The insurer has announced a claim about two of the things.' }] });
export const LiftLegalHold = z.strictObject({ personId: uuid }).meta({ id: 'LiftLegalHold', examples: [{ personId: id }] });

export const LegalHoldBody = z
  .strictObject({ id: z.string(), householdId: z.string(), incidentId: z.string(), reason: z.string().nullable(), placedBy: z.string(), placedAt: z.string(), liftedBy: z.string().nullable(), liftedAt: z.string().nullable(), version: z.int() })
  .meta({
    id: 'LegalHold',
    description: 'While it stands the household is not erased, by nobody and by no rule.',
    examples: [{ id, householdId: id, incidentId: id, reason: 'The insurer has announced a claim about two of the things.', placedBy: id, placedAt: '2026-06-01T09:00:00.000Z', liftedBy: null, liftedAt: null, version: 1 }],
  });

export const HeldDataBody = z
  .strictObject({
    householdId: z.string(), incidentId: z.string(), madeAt: z.string(), erasure: ErasureBody.nullable(),
    held: z.record(z.string(), z.array(z.record(z.string(), z.unknown()))),
    leftOut: z.array(z.string()),
  })
  .meta({
    id: 'HouseholdData',
    description: 'Every row that names the household or one of its things, by the name of its table, with sealed texts opened. Photographs and recordings are listed under `file`; their bytes are read one by one. `leftOut` names what only repeats the rest: indexes of words, the plans of the day, and the places of events under signed roots.',
    examples: [{ householdId: id, incidentId: id, madeAt: '2026-06-01T09:00:00.000Z', erasure: null, held: { household: [{ id, code: 'HH-0042', language: 'en' }] }, leftOut: ['item_word'] }],
  });
