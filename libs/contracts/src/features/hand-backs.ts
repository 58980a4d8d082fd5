import { z } from 'zod';
import { instant, text, uuid } from '../primitives.js';

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
    /** Where the signature is kept; no name. */
    signatureRef: text(300),
    handedAt: instant.nullable().default(null),
  })
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
    handedAt: z.string(),
    recordedAt: z.string(),
    receipt: ReceiptBody,
  })
  .meta({
    id: 'HandBack',
    description: 'What went back to a household, with the receipt as it was given: what was done and not done, how to keep each thing, and what remains uncertain. No name stands in it.',
    examples: [
      {
        id, incidentId: id, householdId: id, receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts/2026-05-12/0007', handedAt: '2026-05-12T10:00:00.000Z', recordedAt: '2026-05-12T10:00:03.000Z',
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
