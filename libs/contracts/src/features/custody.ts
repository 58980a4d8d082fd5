import { z } from 'zod';
import { CUSTODY_EVENT_KINDS, KEEPER_KINDS, STAGES } from '#custody';
import { instant, optionalText, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const KeeperRef = z
  .strictObject({ kind: z.enum(KEEPER_KINDS), id: uuid })
  .meta({ id: 'Keeper', description: 'Who or what holds an item: a place of the incident, a household, a specialist, or a courier, who is a person of the incident. Ids come from the layout of the incident. No item can be given to a `partner-network` yet.', examples: [{ kind: 'holding', id }] });

export const CustodyEventBody = z
  .strictObject({
    itemId: z.string(),
    seq: z.int(),
    kind: z.enum(CUSTODY_EVENT_KINDS),
    from: KeeperRef.nullable(),
    to: KeeperRef,
    stage: z.enum(STAGES),
    actorId: z.string(),
    occurredAt: z.string(),
    recordedAt: z.string(),
    refs: z.record(z.string(), z.string()),
    corrects: z.strictObject({ seq: z.int(), reason: z.string() }).nullable(),
    hashedWords: z.strictObject({ reason: z.string().nullable(), correctsReason: z.string().nullable() }).nullable(),
    commandId: z.string(),
    prevHash: z.string(),
    hash: z.string(),
    form: z.int(),
  })
  .meta({
    id: 'CustodyEvent',
    description: 'An immutable record that an item passed from one keeper to another. `hash` is SHA-256 over the canonical form (version in `form`) and links to `prevHash`. What somebody said in their own words (`refs.reason`, `corrects.reason`) is told here, while the chain holds the salted hash of it that stands in `hashedWords`: put that in its place to reckon the `hash` again. Words of a household that was erased are gone; their hash stays.',
    examples: [
      {
        itemId: id, seq: 2, kind: 'work-started', from: { kind: 'holding', id }, to: { kind: 'station', id }, stage: 'in-work', actorId: id,
        occurredAt: '2026-05-09T08:00:00.000Z', recordedAt: '2026-05-09T08:00:02.000Z', refs: { personId: id }, corrects: null, hashedWords: null, commandId: id,
        prevHash: '0'.repeat(64), hash: 'a'.repeat(64), form: 1,
      },
    ],
  });

const PASSING = ['moved', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'frozen', 'thawed', 'held-wet', 'correction'] as const;

export const RecordPassing = z
  .strictObject({
    kind: z.enum(PASSING),
    /** Who the sender believes holds it; refused with the true keeper when that is wrong. */
    from: KeeperRef,
    to: KeeperRef,
    personId: uuid.nullable().default(null),
    occurredAt: instant.nullable().default(null),
    reason: optionalText(500),
    corrects: z.strictObject({ seq: z.int().min(1), reason: text(200) }).nullable().default(null),
    /** For a correction: the stage it restores. */
    stage: z.enum(STAGES).nullable().default(null),
  })
  .meta({ id: 'RecordPassing', examples: [{ kind: 'work-started', from: { kind: 'holding', id }, to: { kind: 'station', id }, personId: id }] });
export type RecordPassing = z.output<typeof RecordPassing>;
