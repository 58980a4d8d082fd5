import { BUILT_IN_TEMPLATES, type LabelTemplate } from '#custody';
import { LANGUAGES } from '#care';
import { z } from 'zod';
import { code, text } from '../primitives.js';

const EXAMPLE: LabelTemplate = BUILT_IN_TEMPLATES[0]?.template ?? ({} as LabelTemplate);

/** Up to the largest sheets that printers take, and from the smallest that a person can hold. */
const sideMm = z.number().min(10).max(1_200);
const distanceMm = z.number().min(0).max(1_200);

export const LabelTemplateBody = z
  .strictObject({
    page: z.strictObject({ widthMm: sideMm, heightMm: sideMm }),
    marginLeftMm: distanceMm, marginTopMm: distanceMm,
    columns: z.int().min(1).max(40), rows: z.int().min(1).max(80),
    pitchXMm: distanceMm, pitchYMm: distanceMm,
    label: z.strictObject({ widthMm: sideMm, heightMm: sideMm }),
    cornerMm: z.number().min(0).max(60).default(0),
  })
  .meta({ id: 'LabelTemplate', description: 'Where labels lie on a page, in millimetres. Margins run from the edges of the page to the first label, `pitch` from edge to edge of neighbouring labels. A roll is a page with one label.', examples: [EXAMPLE] });

export const AddLabelTemplate = z.strictObject({ name: text(80), template: LabelTemplateBody }).meta({ id: 'AddLabelTemplate', examples: [{ name: 'Film labels of the parish', template: EXAMPLE }] });

export const NamedLabelTemplateBody = z
  .strictObject({
    id: z.string(), name: z.string(), builtIn: z.boolean(), template: LabelTemplateBody, labelsPerPage: z.int(),
    /** What a tag looks like on it. */
    moduleMm: z.number(), codeHeightMm: z.number(), writingHeightMm: z.number().nullable(),
    notes: z.array(z.string()), createdAt: z.string().nullable(),
  })
  .meta({
    id: 'NamedLabelTemplate',
    description: 'A template by its id, with the size of a module of the symbol, of the letters of the code, and of the field to write in (null without one). `notes` say in words what is smaller than it should be.',
    examples: [{ id: 'a4-64x38', name: 'a4-64x38', builtIn: true, template: EXAMPLE, labelsPerPage: 21, moduleMm: 0.75, codeHeightMm: 5.18, writingHeightMm: 8.4, notes: [], createdAt: null }],
  });

export const LabelTemplateParams = z.strictObject({ templateId: code });

const language = z.enum(LANGUAGES).optional();
const yesNo = z.enum(['true', 'false']).transform((value) => value === 'true');

export const CalibrationPageQuery = z.strictObject({ language });

export const TagSheetQuery = z.strictObject({
  template: code,
  /** Counted from 1: the first free label of a part-used sheet. */
  firstPosition: z.coerce.number().int().min(1).max(3_200).default(1),
  /** Counted from 1: the first tag of the block to print. */
  from: z.coerce.number().int().min(1).max(5_000).default(1),
  count: z.coerce.number().int().min(1).max(5_000).optional(),
  cutLines: yesNo.default(false),
  language,
});

export const PrintTagSheet = z
  .strictObject({
    template: LabelTemplateBody,
    firstPosition: z.int().min(1).max(3_200).default(1), from: z.int().min(1).max(5_000).default(1), count: z.int().min(1).max(5_000).optional(), cutLines: z.boolean().default(false), language,
  })
  .meta({ id: 'PrintTagSheet', examples: [{ template: EXAMPLE, firstPosition: 1, from: 1, count: 21, cutLines: false, language: 'es' }] });
