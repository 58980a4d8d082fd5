import { z } from 'zod';
import { LANGUAGES, MATERIAL_CLASSES, SIGNIFICANCES, STEP_KINDS, STEP_OUTCOMES, WATER_KINDS } from '#care';
import { STANDARD_ITEM_KINDS } from '#climate';
import { CUSTODY_EVENT_KINDS } from '#custody';
import { code, instant, optionalText, text, uuid } from '../primitives.js';
import { SuitabilityOverride } from './care.js';
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

const LineInput = z.strictObject({
  sheetNo: z.int().min(1).max(10_000).describe('The number of the sheet.'),
  part: z.int().min(1).max(99).default(1).describe('As somebody wrote it on the sheet, which goes on on a copy or on blank paper when it is full; 1 where nobody did.'),
  lineNo: z.int().min(1).max(99).describe('The number in front of the line.'),
  void: z.enum(['crossed-out', 'unreadable']).nullable().default(null).describe('Why it holds nothing; a line that stands is not void.'),
  writtenAt: instant.nullable().default(null).describe('The day and time on the line. It is kept as the time at which it happened, however late it is keyed.'),
  tag: text(40).nullable().default(null).describe('The tag of the thing or container, as it was written.'),
  step: z.enum(STEP_KINDS).nullable().default(null).describe('The step that ended, on the log of a station; null for a thing that came somewhere.'),
  outcome: z.enum(STEP_OUTCOMES).nullable().default(null).describe('How the step ended.'),
  to: KeeperRef.nullable().default(null).describe('Where it was put down. Left out: of a thing that came, the place of the sheet; after a step, as a station reports it.'),
  personId: uuid.nullable().default(null).describe('Whose hands; needed for a step.'),
  withPersonIds: z.array(uuid).max(20).default([]).describe('Others who did the step together with that person.'),
  liftingAid: z.boolean().default(false),
  note: optionalText(1_000),
  override: SuitabilityOverride,
});

export const KeyPaperLogLines = z
  .strictObject({
    personId: uuid.describe('Who keys them.'),
    lines: z.array(LineInput).min(1).max(500),
  })
  .meta({
    id: 'KeyPaperLogLines', description: 'Lines as they stand on station logs and place sheets.',
    examples: [{ personId: id, lines: [
      { sheetNo: 4, lineNo: 1, writtenAt: '2026-05-09T09:50:00Z', tag: 'BBBC-BBB-47', step: 'rinse', outcome: 'done', personId: id },
      { sheetNo: 9, part: 2, lineNo: 3, writtenAt: '2026-05-09T10:05:00Z', tag: 'BBBC-BBB-47', personId: id },
      { sheetNo: 9, part: 2, lineNo: 4, void: 'crossed-out' },
    ] }],
  });

export const LineVerdictBody = z.strictObject({
  sheetNo: z.int(), part: z.int(), lineNo: z.int(),
  verdict: z.enum(['keyed', 'void', 'keyed-before', 'refused']),
  became: z.enum(['moved', 'step', 'seen-again', 'seen-late', 'disputed', 'sighted']).nullable(),
  itemId: z.string().nullable(), containerId: z.string().nullable(),
  event: z.strictObject({ kind: z.enum(CUSTODY_EVENT_KINDS), seq: z.int() }).nullable(),
  stepResultId: z.string().nullable(),
  problem: ScanProblemBody.nullable(),
});

export const LineVerdictsBody = z
  .strictObject({ results: z.array(LineVerdictBody) })
  .meta({
    id: 'LineVerdicts',
    description: 'One result for each line, in the order in which they were sent. `became` says as what it is on record: `moved` and `step` with the event that they made; `seen-again` where the record said so already; `seen-late` where something later is on record, so that nothing moved; `disputed` where the record says otherwise and a person must look; `sighted` where the thing has left or was missed. A `problem` beside `keyed` is for whoever looks; a line that is `refused` changed nothing and may be keyed again.',
    examples: [{ results: [{ sheetNo: 9, part: 2, lineNo: 3, verdict: 'keyed', became: 'moved', itemId: id, containerId: null, event: { kind: 'drying-started', seq: 4 }, stepResultId: null, problem: null }] }],
  });

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
    /** Station logs and place sheets with what was keyed from them; `gaps` are numbers before the last keyed line of a part that nobody has keyed. */
    sheets: z.array(z.strictObject({ sheetNo: z.int(), place: KeeperRef, keyed: z.int(), void: z.int(), gaps: z.array(z.strictObject({ part: z.int(), lineNo: z.int() })) })),
  })
  .meta({
    id: 'PaperKit', description: 'The printed slips and sheets held against what was keyed.',
    examples: [{ ...kit, slips: 1, counts: { keyed: 1, void: 0, missing: 0 }, list: [{ slipNo: 1, tag: 'BBBC-BBB-47', state: 'keyed', itemId: id, voidReason: null, writtenAt: '2026-05-09T09:40:00.000Z', keyedAt: '2026-05-09T20:10:00.000Z', keyedBy: id }], sheets: [{ sheetNo: 1, place: { kind: 'station', id }, keyed: 11, void: 1, gaps: [{ part: 1, lineNo: 7 }] }] }],
  });
