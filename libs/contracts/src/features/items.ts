import { z } from 'zod';
import { DISPOSITIONS, MATERIAL_CLASSES, SIGNIFICANCES, STEP_KINDS, URGENCIES, WATER_KINDS } from '#care';
import { STANDARD_ITEM_KINDS } from '#climate';
import { KEEPER_KINDS, STAGES } from '#custody';
import { day, instant, optionalText, PageQuery, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const ItemParams = z.strictObject({ itemId: uuid });

export const TakeInItem = z
  .strictObject({
    householdId: uuid,
    siteId: uuid,
    /** As typed or scanned; case, spaces and hyphens do not matter. */
    tag: text(40),
    /** Pieces of a counted lot; leave it out for one thing. */
    count: z.int().min(1).max(100_000).default(1),
    description: text(500),
    familyWords: optionalText(2_000),
    photographRef: optionalText(300),
    /** The day on which the photograph was taken, if somebody knows it. */
    photographedOn: day.nullable().default(null),
    materialClass: z.enum(MATERIAL_CLASSES).default('unknown'),
    sizeClass: z.enum(STANDARD_ITEM_KINDS),
    significance: z.enum(SIGNIFICANCES).default('valued'),
    arrivedAt: instant.nullable().default(null),
    wettedAt: instant.nullable().default(null),
    water: z.enum(WATER_KINDS).nullable().default(null),
    /** Where it is put down; the dirty waiting area of the site when left out. */
    to: KeeperRef.nullable().default(null),
  })
  .meta({
    id: 'TakeInItem',
    examples: [{ householdId: id, siteId: id, tag: 'BBBC-BBB-47', description: 'Wedding quilt, red and white', familyWords: 'Grandmother made it in the year of the first bridge.', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', significance: 'irreplaceable' }],
  });
export type TakeInItem = z.output<typeof TakeInItem>;

export const ItemBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    householdId: z.string(),
    siteId: z.string(),
    tag: z.string(),
    kind: z.enum(['item', 'lot']),
    count: z.int(),
    splitFromId: z.string().nullable(),
    description: z.string(),
    familyWords: z.string(),
    photographRef: z.string(),
    photographedOn: z.string().nullable(),
    materialClass: z.enum(MATERIAL_CLASSES),
    sizeClass: z.string(),
    dryingAreaM2: z.number(),
    freezerVolumeL: z.number(),
    dryMassKg: z.number(),
    significance: z.enum(SIGNIFICANCES),
    arrivedAt: z.string(),
    wettedAt: z.string().nullable(),
    keeper: KeeperRef,
    stage: z.enum(STAGES),
    custodySeq: z.int(),
    openHandOver: z.strictObject({ id: z.string(), to: KeeperRef }).nullable(),
    locationDisputed: z.boolean(),
    missing: z.boolean(),
    lastSeenAt: z.string(),
    urgency: z.enum(URGENCIES).nullable(),
    startBy: z.string().nullable(),
    disposition: z.enum(DISPOSITIONS).nullable(),
    nextStep: z.enum(STEP_KINDS).nullable(),
    waitingForOwner: z.boolean(),
    stabilisedAt: z.string().nullable(),
    version: z.int(),
  })
  .meta({
    id: 'Item',
    description: 'One thing, or one counted lot of like small things. Exactly one keeper holds it. Areas and volumes come from the size class and are our own calibration; `startBy` is a rule of practice, never a promise.',
    examples: [
      {
        id, incidentId: id, householdId: id, siteId: id, tag: 'BBBC-BBB-47', kind: 'item', count: 1, splitFromId: null, description: 'Wedding quilt', familyWords: '', photographRef: '', photographedOn: null,
        materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', dryingAreaM2: 5.5, freezerVolumeL: 32, dryMassKg: 2.1, significance: 'irreplaceable', arrivedAt: '2026-05-09T07:10:00.000Z', wettedAt: null,
        keeper: { kind: 'holding', id }, stage: 'waiting', custodySeq: 1, openHandOver: null, locationDisputed: false, missing: false, lastSeenAt: '2026-05-09T07:10:00.000Z', urgency: 'within-a-day', startBy: '2026-05-10T06:00:00.000Z', disposition: 'treat', nextStep: 'colour-test', waitingForOwner: false, stabilisedAt: null, version: 2,
      },
    ],
  });

export const ItemListQuery = PageQuery.extend({
  stage: z.enum(STAGES).optional(),
  urgency: z.enum(URGENCIES).optional(),
  householdId: uuid.optional(),
  keeperKind: z.enum(KEEPER_KINDS).optional(),
  keeperId: uuid.optional(),
}).refine((query) => (query.keeperKind === undefined) === (query.keeperId === undefined), { message: 'give keeperKind and keeperId together', path: ['keeperId'] });

export const ChangeItemWords = z
  .strictObject({ description: text(500).optional(), familyWords: text(2_000, 0).optional(), photographRef: text(300, 0).optional(), photographedOn: day.nullable().optional() })
  .meta({ id: 'ChangeItemWords', examples: [{ familyWords: 'It was on her bed for sixty years.' }] });
