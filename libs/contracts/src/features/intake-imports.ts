import { z } from 'zod';
import { PageQuery, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const IMPORT_STATES = ['queued', 'running', 'done', 'failed'] as const;
export const ROW_OUTCOMES = ['accepted', 'repaired', 'refused', 'already-there'] as const;
export const REMARK_KINDS = ['refusal', 'repair', 'note'] as const;

/** What the columns of an intake file mean; the text that partners read in the API documentation. */
export const INTAKE_FILE_DESCRIPTION = `A table as \`text/csv\` (header line; comma, semicolon or tab; UTF-8, UTF-16 with its mark, or Windows-1252) or one JSON object a line as
\`application/x-ndjson\`. At most 10 MiB, 20,000 rows, 200 columns, 4,000 characters a cell; a bigger file is refused whole.

Columns, whatever their order; case, spaces, hyphens and underscores in a header do not matter; columns that are not ours are left alone:

* \`tag\` (required): the code on the waterproof tag, reserved before. One that fails its check digits is refused with the reserved tags closest to it, never corrected.
* \`household\` (required): code of the household; registered with the file's contact when it is new in the incident.
* \`contactName\`, \`contactPhone\`, \`contactEmail\`, \`contactAddress\`, \`language\` (\`en\`, \`es\`): of the household; one row of it is enough. A known household's contact is never changed by a file.
* \`object\`: what it is, in a few words. \`familyWords\`: what the family says of it. \`photograph\`: name of its picture.
* \`count\`: pieces of a lot, 1 when blank.
* \`material\`: a material class, or an everyday word such as quilt, shirt, letter, print (Quilt, Hemd, Brief, Foto); anything else is accepted as \`unknown\`.
* \`size\`: a size class or an everyday word; the usual size of such a thing when blank. \`significance\`: \`everyday\`, \`valued\`, \`treasured\`, \`irreplaceable\`.
* \`wettedAt\`, \`arrivedAt\`: RFC 3339, or \`2026-05-08 22:30\`, \`08.05.2026 22:30\` and the like in the time zone of the network. A date that can be two days (05/08/2026) is refused, never guessed.
* \`water\`: \`clean\`, \`grey\`, \`black\`, \`salt\`, \`unknown\`; the incident's when blank.
* \`consentTreat\`, \`consentFreeze\`, \`consentRefer\`: yes, no or blank. Blank records no consent.

Each row ends as \`accepted\`, \`repaired\` (what was put right is said by column), \`refused\` (why, by column) or \`already-there\` (the same thing of the same household on the same tag).`;

export const IntakeImportParams = z.strictObject({ importId: uuid });

export const SubmitIntakeImportQuery = z.strictObject({
  siteId: uuid.meta({ description: 'Site where the things are; they are put down in its dirty waiting area.' }),
  fileName: text(200).default('intake').meta({ description: 'Name of the file, for people.' }),
});

export const IntakeImportRowsQuery = PageQuery.extend({ outcome: z.enum(ROW_OUTCOMES).optional() });

export const RowRemarkBody = z
  .strictObject({
    kind: z.enum(REMARK_KINDS),
    /** Our column name; blank for the whole row or file. */
    column: z.string(),
    code: z.string(),
    text: z.string(),
    was: z.string().nullable(),
    became: z.string().nullable(),
  })
  .meta({ id: 'IntakeRemark', description: 'A refusal says why a row did not go in, a repair what was put right, a note what is worth knowing. Contacts are never quoted.', examples: [{ kind: 'repair', column: 'count', code: 'decimals_removed', text: 'The number had decimals that say nothing.', was: '3,0', became: '3' }] });

export const IntakeImportBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    siteId: z.string(),
    fileName: z.string(),
    mediaType: z.string(),
    sha256: z.string(),
    encoding: z.enum(['utf-8', 'utf-16', 'windows-1252']),
    delimiter: z.enum(['comma', 'semicolon', 'tab']).nullable(),
    columns: z.array(z.strictObject({ header: z.string(), column: z.string().nullable() })),
    remarks: z.array(RowRemarkBody),
    state: z.enum(IMPORT_STATES),
    rowsTotal: z.int(),
    rowsDone: z.int(),
    accepted: z.int(),
    repaired: z.int(),
    refused: z.int(),
    alreadyThere: z.int(),
    failure: z.string().nullable(),
    submittedAt: z.string(),
    finishedAt: z.string().nullable(),
  })
  .meta({
    id: 'IntakeImport',
    description: 'A file of arrivals and how far it is. `rowsDone` is the sum of the four outcomes. The bytes of the file are dropped when it is done or failed.',
    examples: [
      {
        id, incidentId: id, siteId: id, fileName: 'door-slips.csv', mediaType: 'text/csv', sha256: 'b94d27b9934d3e08a52e52d7da7dabfac484efe37a5380ee9088f7ace2efcde9',
        encoding: 'windows-1252', delimiter: 'semicolon', columns: [{ header: 'Tag', column: 'tag' }, { header: 'Shelf', column: null }],
        remarks: [{ kind: 'note', column: 'Shelf', code: 'column_not_used', text: 'This column is not one of ours and was not used.', was: null, became: null }],
        state: 'running', rowsTotal: 240, rowsDone: 100, accepted: 81, repaired: 14, refused: 3, alreadyThere: 2, failure: null, submittedAt: '2026-05-09T10:05:00.000Z', finishedAt: null,
      },
    ],
  });

export const IntakeImportRowBody = z
  .strictObject({
    rowNumber: z.int(),
    outcome: z.enum(ROW_OUTCOMES),
    itemId: z.string().nullable(),
    remarks: z.array(RowRemarkBody),
    cells: z.record(z.string(), z.string()),
  })
  .meta({
    id: 'IntakeImportRow',
    description: 'What became of one row; numbered as a spreadsheet shows it, so the header line of a CSV file is row 1. `cells` are as they came, without contacts.',
    examples: [
      {
        rowNumber: 17, outcome: 'refused', itemId: null,
        remarks: [{ kind: 'refusal', column: 'wettedAt', code: 'date_ambiguous', text: 'This can be two days: 5 may be the month or the day. Write it as 2026-05-08 22:30 or 08.05.2026 22:30.', was: '05/08/2026', became: null }],
        cells: { tag: 'BBBC-BBB-47', household: 'HH-0042', object: 'Christening gown', wettedAt: '05/08/2026' },
      },
    ],
  });
