import { z } from 'zod';
import { LANGUAGES, MATERIAL_CLASSES, SIGNIFICANCES, WATER_KINDS } from '#care';
import { STANDARD_ITEM_KINDS } from '#climate';
import { code, instant, optionalText, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';
import { ScanProblemBody } from './scans.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const REASONS = ['unused', 'spoilt', 'lost'] as const;

export const PaperKitParams = z.strictObject({ kitId: uuid });

export const MakePaperKit = z.strictObject({ slips: z.int().min(1).max(500) }).meta({ id: 'MakePaperKit', examples: [{ slips: 60 }] });

const SlipInput = z.strictObject({
  slipNo: z.int().min(1).max(500),
  /** Why it holds nothing; a slip that was written is not void. */
  void: z.enum(REASONS).nullable().default(null),
  /** The time that stands on the slip. It is kept as the time at which it happened, however late it is keyed. */
  writtenAt: instant.nullable().default(null),
  household: z
    .strictObject({
      code,
      language: z.enum(LANGUAGES).default('en'),
      /** Registers the household when the code is not registered yet; not looked at when it is. */
      contact: z.strictObject({ name: text(200), phone: optionalText(60), email: optionalText(200), address: optionalText(500) }).nullable().default(null),
    })
    .nullable()
    .default(null),
  description: optionalText(500),
  familyWords: optionalText(2_000),
  materialClass: z.enum(MATERIAL_CLASSES).default('unknown'),
  sizeClass: z.enum(STANDARD_ITEM_KINDS).nullable().default(null),
  significance: z.enum(SIGNIFICANCES).default('valued'),
  count: z.int().min(1).max(100_000).default(1),
  water: z.enum(WATER_KINDS).nullable().default(null),
  wettedAt: instant.nullable().default(null),
  to: KeeperRef.nullable().default(null),
  /** Boxes that were ticked; what was left open was not asked. Letting go is never agreed on a slip. */
  consents: z
    .array(z.strictObject({ scope: z.enum(['treat', 'freeze', 'refer', 'photograph']), given: z.boolean() }))
    .max(4)
    .refine((list) => new Set(list.map(({ scope }) => scope)).size === list.length, { message: 'names a scope twice' })
    .default([]),
});

export const KeyPaperSlips = z
  .strictObject({
    /** Who keys them. */
    personId: uuid,
    slips: z.array(SlipInput).min(1).max(500),
  })
  .meta({
    id: 'KeyPaperSlips',
    examples: [{ personId: id, slips: [
      { slipNo: 1, writtenAt: '2026-05-09T09:40:00Z', household: { code: 'HH-0042', language: 'es', contact: { name: 'Contact of household 42', phone: '' } }, description: 'Wedding quilt', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', significance: 'irreplaceable', consents: [{ scope: 'treat', given: true }] },
      { slipNo: 2, void: 'spoilt' },
    ] }],
  });

export const SlipVerdictBody = z.strictObject({
  slipNo: z.int(),
  verdict: z.enum(['keyed', 'void', 'keyed-before', 'refused']),
  itemId: z.string().nullable(),
  tag: z.string().nullable(),
  problem: ScanProblemBody.nullable(),
});

export const SlipVerdictsBody = z
  .strictObject({ results: z.array(SlipVerdictBody) })
  .meta({ id: 'SlipVerdicts', description: 'One result for each slip, in the order in which they were sent.', examples: [{ results: [{ slipNo: 1, verdict: 'keyed', itemId: id, tag: 'BBBC-BBB-47', problem: null }] }] });

const kitMembers = { id: z.string(), incidentId: z.string(), siteId: z.string(), tagBlockId: z.string(), slips: z.int(), createdAt: z.string() };
const kit = { id, incidentId: id, siteId: id, tagBlockId: id, slips: 60, createdAt: '2026-05-08T20:00:00.000Z' };

export const NewPaperKitBody = z.strictObject({ ...kitMembers, tags: z.array(z.string()) }).meta({ id: 'NewPaperKit', description: 'Slips for a power cut, numbered from 1 in the order of the tags.', examples: [{ ...kit, slips: 1, tags: ['BBBC-BBB-47'] }] });

export const PaperKitBody = z
  .strictObject({
    ...kitMembers,
    /** Of the printed slips: keyed, void, and neither (missing until somebody finds or voids them). */
    counts: z.strictObject({ keyed: z.int(), void: z.int(), missing: z.int() }),
    list: z.array(z.strictObject({
      slipNo: z.int(), tag: z.string(), state: z.enum(['missing', 'keyed', 'void']), itemId: z.string().nullable(), voidReason: z.enum(REASONS).nullable(),
      /** As it stands on the slip. */
      writtenAt: z.string().nullable(),
      keyedAt: z.string().nullable(),
      /** The person who keyed it. */
      keyedBy: z.string().nullable(),
    })),
  })
  .meta({
    id: 'PaperKit', description: 'The printed slips held against what was keyed.',
    examples: [{ ...kit, slips: 1, counts: { keyed: 1, void: 0, missing: 0 }, list: [{ slipNo: 1, tag: 'BBBC-BBB-47', state: 'keyed', itemId: id, voidReason: null, writtenAt: '2026-05-09T09:40:00.000Z', keyedAt: '2026-05-09T20:10:00.000Z', keyedBy: id }] }],
  });
