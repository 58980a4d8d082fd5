import { z } from 'zod';
import { MATERIAL_CLASSES } from '#care';
import { instant, optionalText, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const RECEIVERS = ['contact', 'named-representative'] as const;
const CHECKS = ['document-seen', 'known-in-person', 'pickup-code'] as const;

export const HandBackParams = z.strictObject({ handBackId: uuid });

export const HandBack = z
  .strictObject({
    items: z
      .array(z.strictObject({ itemId: uuid, conditionNote: text(1_000) }))
      .min(1)
      .max(500)
      .refine((items) => new Set(items.map((item) => item.itemId)).size === items.length, { message: 'names an item twice' }),
    receiver: z.enum(RECEIVERS),
    identityCheck: z.enum(CHECKS),
    /** Where a signature on paper is kept; no name. One of the three is needed: this, a signature on the screen, or the code of the appointment. */
    signatureRef: optionalText(300),
    handedAt: instant.nullable().default(null),
    /** Who stands at the counter. */
    personId: uuid.nullable().default(null),
    /** The appointment that is kept by it. */
    appointmentId: uuid.nullable().default(null),
    /** The one-time code of the appointment, as it was read out. It is checked and kept nowhere. */
    code: text(40).nullable().default(null),
    /** Lines of the pen, each with its points one after the other (x and y in turn) on a field of 1,000 by 400. Sealed for the household. */
    signature: z
      .array(z.array(z.int().min(0).max(1_000)).min(2).max(2_000).refine((points) => points.length % 2 === 0, { message: 'has a point without y' }))
      .min(1)
      .max(200)
      .refine((lines) => lines.reduce((sum, line) => sum + line.length, 0) <= 8_000, { message: 'has more than 4,000 points' })
      .nullable()
      .default(null),
    /** What the receiver has to say against it, in their words. Sealed for the household. */
    reservations: optionalText(2_000),
  })
  .refine(({ signatureRef, signature, code }) => signatureRef !== '' || signature !== null || code !== null, { message: 'needs a signature, the reference of one on paper, or the code of the appointment', path: ['signatureRef'] })
  .meta({
    id: 'HandBackRequest',
    description: 'The items that go back now; what is not named stays with us. Condition notes describe the thing, not people.',
    examples: [{ items: [{ itemId: id, conditionNote: 'Dry, colours as before, one seam open at the left edge.' }], receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts/2026-05-12/0007' }],
  });
export type HandBack = z.output<typeof HandBack>;

const AdviceBody = z.strictObject({ text: z.string(), source: z.strictObject({ mark: z.enum(['published', 'common-practice', 'from-memory', 'own-calibration']), cite: z.string() }) });

const ReceiptBody = z.strictObject({
  handBackId: z.string(),
  householdCode: z.string(),
  handedAt: z.string(),
  ruleBookVersion: z.string(),
  items: z.array(
    z.strictObject({
      itemId: z.string(),
      tag: z.string(),
      description: z.string(),
      count: z.int(),
      conditionNote: z.string(),
      done: z.array(z.string()),
      notDone: z.array(z.string()),
      storageAdvice: z.array(AdviceBody),
      never: z.array(z.string()),
      residualRisk: z.array(AdviceBody),
      /** Absent, as the two after it, from receipts of before the care sheet. */
      materialClass: z.enum(MATERIAL_CLASSES).optional(),
      /** What to do with it in the next weeks. */
      nextWeeks: z.array(AdviceBody).optional(),
      /** When to ask a conservator. */
      askWhen: z.array(AdviceBody).optional(),
    }),
  ),
  standing: z.string(),
});

export const HandBackBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    householdId: z.string(),
    receiver: z.enum(RECEIVERS),
    identityCheck: z.enum(CHECKS),
    signatureRef: z.string(),
    personId: z.string().nullable(),
    appointmentId: z.string().nullable(),
    /** On the screen; the lines themselves stand on the printed receipt alone. */
    signed: z.boolean(),
    codeUsed: z.boolean(),
    /** The receiver said something against it; the words stand on the printed receipt alone. */
    reserved: z.boolean(),
    handedAt: z.string(),
    recordedAt: z.string(),
    receipt: ReceiptBody,
  })
  .meta({
    id: 'HandBack',
    description: 'What went back to a household, with the receipt as it was given: what was done and not done, how to keep each thing, and what remains uncertain. No name stands in it.',
    examples: [
      {
        id, incidentId: id, householdId: id, receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts/2026-05-12/0007', personId: null, appointmentId: null, signed: false, codeUsed: false, reserved: false, handedAt: '2026-05-12T10:00:00.000Z', recordedAt: '2026-05-12T10:00:03.000Z',
        receipt: {
          handBackId: id, householdCode: 'HH-0042', handedAt: '2026-05-12T10:00:00.000Z', ruleBookVersion: '2026.1', standing: 'First aid keeps a thing from getting worse; nothing is promised.',
          items: [
            {
              itemId: id, tag: 'BBBC-BBB-47', description: 'Wedding quilt', count: 1, conditionNote: 'Dry, one seam open.', done: ['rinsed', 'dried in moving air'], notDone: [],
              storageAdvice: [{ text: 'Keep it in moving air below 60 % relative humidity.', source: { mark: 'published', cite: 'CCI Notes 13/15, Canadian Conservation Institute' } }],
              never: ['Never wash or wet it again without a conservator.'], residualRisk: [{ text: 'It lay in contaminated water.', source: { mark: 'published', cite: 'Cleanup of flood water, US CDC' } }],
            },
          ],
        },
      },
    ],
  });
