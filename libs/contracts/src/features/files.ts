import { z } from 'zod';
import { PageQuery, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const KINDS = ['photograph', 'voice', 'words'] as const;
const EVENTS = ['intake', 'assessment', 'step-result', 'custody', 'hand-back', 'own'] as const;
const STATES = ['receiving', 'received', 'kept', 'refused', 'expired', 'deleted'] as const;
const PURPOSES = ['work', 'family', 'specialist', 'publication'] as const;
const SIZES = ['full', 'medium', 'small'] as const;

/** Media types of the bodies that `sendFile` takes, and what kind of file each is. */
export const FILE_MEDIA_TYPES = {
  'image/jpeg': 'photograph', 'image/png': 'photograph', 'image/webp': 'photograph',
  'audio/wav': 'voice', 'audio/x-wav': 'voice', 'audio/mpeg': 'voice', 'audio/mp4': 'voice', 'audio/x-m4a': 'voice', 'audio/ogg': 'voice', 'audio/webm': 'voice',
} as const;

export const FileParams = z.strictObject({ fileId: uuid });
export const UploadParams = z.strictObject({ uploadId: uuid });

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'is 64 hexadecimal digits in lower case');
const flag = z.enum(['true', 'false']).transform((value) => value === 'true');

/** What a file belongs to; the same members in a query and in a body. */
const belonging = {
  itemId: uuid.nullable().default(null).meta({ description: 'Item that it shows or speaks of; left out for the household as a whole.' }),
  event: z.enum(EVENTS).default('own').meta({ description: 'What it belongs to; `own`: that it was taken or told is an event of its own.' }),
  eventId: uuid.nullable().default(null).meta({ description: 'Id of the hand-back, assessment or step result; without one, the newest assessment or step result of the item.' }),
  eventSeq: z.coerce.number().int().min(1).max(2_147_483_647).nullable().default(null).meta({ description: 'With `custody`: number of the event in the record of the item.' }),
  personId: uuid.nullable().default(null).meta({ description: 'Who took it or wrote it down; nobody of the family.' }),
};

interface Belonging {
  itemId: string | null;
  event: (typeof EVENTS)[number];
  eventId: string | null;
  eventSeq: number | null;
}

/** An assessment or a step result that is not named is the newest one of the item. */
const MAY_HAVE_ID = new Set(['assessment', 'step-result', 'hand-back']);

function whole({ itemId, event, eventId, eventSeq }: Belonging, context: z.RefinementCtx): void {
  const wrong = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message });
  if (event === 'hand-back' && eventId === null) wrong('eventId', 'is needed with this event');
  if (eventId !== null && !MAY_HAVE_ID.has(event)) wrong('eventId', 'does not go with this event');
  if ((event === 'custody') !== (eventSeq !== null)) wrong('eventSeq', event === 'custody' ? 'is needed with this event' : 'does not go with this event');
  if (itemId === null && !['own', 'hand-back'].includes(event)) wrong('itemId', 'is needed with this event');
}

const common = { ...belonging, sensitive: flag.nullable().default(null).meta({ description: 'Shows a document or something as private; by what the item is made of when left out.' }), sha256: sha256.nullable().default(null).meta({ description: 'SHA-256 of the bytes, hexadecimal; what arrives otherwise is refused.' }) };

export const BeginUploadQuery = z.strictObject({ ...common, kind: z.enum(['photograph', 'voice']) }).superRefine(whole);
export const SendFileQuery = z.strictObject(common).superRefine(whole);

export const WriteWords = z
  .strictObject({ ...belonging, sensitive: z.boolean().default(true), language: z.enum(['en', 'es']).default('en'), text: text(30_000) })
  .superRefine(whole)
  .meta({ id: 'WordsRequest', description: 'What a family says of a thing, in its own words. Sensitive unless you say otherwise.', examples: [{ itemId: id, text: 'Our grandmother sewed it from the curtains of the house that burned.', language: 'en' }] });

export const DeleteFile = z
  .strictObject({ personId: uuid, reason: text(500) })
  .meta({ id: 'FileDeletionRequest', description: 'Who wants it deleted, and why. The reason stays with the record of the file; write no names.', examples: [{ personId: id, reason: 'The family asked for it.' }] });

export const MakeFileLink = z
  .strictObject({ purpose: z.enum(PURPOSES).default('work'), size: z.enum(SIZES).default('medium'), sensitiveToo: z.boolean().default(false), download: z.boolean().default(false) })
  .meta({ id: 'FileLinkRequest', description: 'Whom the link is for, and which size of a photograph.', examples: [{ purpose: 'work', size: 'small' }] });

export const FileLinkBody = z
  .strictObject({ id: z.string(), url: z.string(), expiresAt: z.string() })
  .meta({ id: 'FileLink', description: 'An address on this server that leads to the file, for whoever has it, until it ends. `id` is that of the file.', examples: [{ id, url: '/files/AQGYt6A...', expiresAt: '2026-05-09T07:20:00.000Z' }] });

export const FileListQuery = PageQuery.extend({ everyState: flag.default(false).meta({ description: 'Also what is not checked yet, was refused, has expired or was deleted.' }) });

const coded = z.strictObject({ code: z.string(), text: z.string() });

export const FileBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    householdId: z.string(),
    itemId: z.string().nullable(),
    kind: z.enum(KINDS),
    event: z.strictObject({ kind: z.enum(EVENTS), id: z.string().nullable(), seq: z.int().nullable() }),
    personId: z.string().nullable(),
    sensitive: z.boolean(),
    language: z.enum(['en', 'es']).nullable(),
    state: z.enum(STATES),
    announcedBytes: z.int(),
    receivedBytes: z.int(),
    begunAt: z.string(),
    expiresAt: z.string().nullable(),
    receivedAt: z.string().nullable(),
    settledAt: z.string().nullable(),
    refusal: coded.nullable(),
    mediaType: z.string().nullable(),
    widthPx: z.int().nullable(),
    heightPx: z.int().nullable(),
    durationS: z.number().nullable(),
    keptBytes: z.int().nullable(),
    removed: z.array(coded),
    deletedAt: z.string().nullable(),
    deletedBy: z.string().nullable(),
    deletedReason: z.string().nullable(),
    version: z.int(),
  })
  .meta({
    id: 'File',
    description:
      'A photograph, a recording or written words. `receiving`: an upload is under way until `expiresAt`. `received`: all of it is here and waits to be looked into. `kept`: it can be shown; `removed` says what was taken out. `refused`: it was deleted, for the reason in `refusal`. The name of the sender’s file is never kept.',
    examples: [
      {
        id, incidentId: id, householdId: id, itemId: id, kind: 'photograph', event: { kind: 'intake', id: null, seq: 1 }, personId: null, sensitive: false, language: null, state: 'kept', announcedBytes: 2_411_004, receivedBytes: 2_411_004,
        begunAt: '2026-05-09T07:10:00.000Z', expiresAt: null, receivedAt: '2026-05-09T07:10:04.000Z', settledAt: '2026-05-09T07:10:05.000Z', refusal: null, mediaType: 'image/jpeg', widthPx: 4032, heightPx: 3024, durationS: null, keptBytes: 1_903_551,
        removed: [{ code: 'location', text: 'where it was taken' }], deletedAt: null, deletedBy: null, deletedReason: null, version: 3,
      },
    ],
  });
