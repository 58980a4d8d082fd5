import { z } from 'zod';
import { FIBRES, FRAGILITIES, MATERIAL_CLASSES, MOULD_STATES, SIGNIFICANCES, SOILS, STEP_KINDS, WATER_KINDS, WET_STATES } from '#care';
import { STAGES } from '#custody';
import { instant, text, uuid } from '../primitives.js';
import { MoneyBody } from './households.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
export const QuoteParams = z.strictObject({ quoteId: uuid });

export const RecordReferralQuote = z
  .strictObject({
    specialistId: uuid,
    amount: MoneyBody.refine(({ minor }) => minor <= 100_000_000_000, { message: 'is larger than any offer' }),
    validUntil: instant,
    /** What the specialist offers to do: about the thing, never about people. */
    work: text(2_000, 3),
  })
  .meta({ id: 'RecordReferralQuote', examples: [{ specialistId: id, amount: { minor: 18_000, currency: 'USD' }, validUntil: '2026-06-30T00:00:00Z', work: 'Wet cleaning on a suction table, flattening, report.' }] });

export const DecideReferralQuote = z.strictObject({ decision: z.enum(['approve', 'decline']) }).meta({ id: 'DecideReferralQuote', examples: [{ decision: 'approve' }] });

const quote = { id, itemId: id, specialistId: id, amount: { minor: 18_000, currency: 'USD' }, validUntil: '2026-06-30T00:00:00.000Z', work: 'Wet cleaning on a suction table.', state: 'approved' as const, basis: 'consent-limit' as const, consentId: id, recordedAt: '2026-05-12T09:00:00.000Z', decidedAt: '2026-05-12T10:00:00.000Z', version: 2 };
export const ReferralQuoteBody = z
  .strictObject({
    id: z.string(), itemId: z.string(), specialistId: z.string(), amount: MoneyBody, validUntil: z.string(), work: z.string(), state: z.enum(['open', 'approved', 'declined']),
    /** On what a yes rests: the limit that the owner named before, or a yes to this item after the offer came. */
    basis: z.enum(['consent-limit', 'owner-asked']).nullable(), consentId: z.string().nullable(), recordedAt: z.string(), decidedAt: z.string().nullable(), version: z.int(),
  })
  .meta({ id: 'ReferralQuote', description: 'What a specialist offers to do with an item, for how much, until when.', examples: [quote] });

export const ReferralQuotesBody = z.strictObject({ items: z.array(ReferralQuoteBody) }).meta({ id: 'ReferralQuotes', description: 'Offers for an item, newest first.', examples: [{ items: [quote] }] });

const LookBody = z.strictObject({ at: z.string(), wetState: z.enum(WET_STATES), water: z.enum(WATER_KINDS), mould: z.enum(MOULD_STATES), fragility: z.enum(FRAGILITIES), fibre: z.enum(FIBRES), soil: z.enum(SOILS), alreadyBled: z.boolean().nullable() });
const look = { at: '2026-05-09T07:10:00.000Z', wetState: 'dripping' as const, water: 'black' as const, mould: 'none' as const, fragility: 'sound' as const, fibre: 'cotton' as const, soil: 'light' as const, alreadyBled: false };

export const ReferralPackageBody = z
  .strictObject({
    itemId: z.string(), tag: z.string(), description: z.string(), count: z.int(), materialClass: z.enum(MATERIAL_CLASSES), significance: z.enum(SIGNIFICANCES), stage: z.enum(STAGES), at: z.string(),
    hoursWet: z.int(),
    /** Nobody knows when it got wet: the hours count from the beginning of the flood. */
    sinceFlood: z.boolean(),
    asItCame: LookBody, now: LookBody,
    tests: z.array(z.strictObject({ at: z.string(), colour: z.string(), solution: z.enum(['water', 'detergent']), method: z.enum(['swab', 'blotter', 'lab']), reading: z.string() })),
    allColoursTested: z.boolean(),
    weighings: z.array(z.strictObject({ at: z.string(), massKg: z.number(), doubtful: z.boolean() })),
    steps: z.array(z.strictObject({ step: z.enum(STEP_KINDS), outcome: z.string(), finishedAt: z.string(), hands: z.string(), station: z.string().nullable(), note: z.string() })),
    photographs: z.array(z.strictObject({ reference: z.string(), takenOn: z.string().nullable() })),
    /** What the people who unpack it must know and wear. */
    protection: z.strictObject({ cautions: z.array(z.string()), ppe: z.array(z.string()), apartFrom: z.array(z.string()) }),
    never: z.array(z.string()),
    referral: z.array(z.string()),
    consent: z.strictObject({ refer: z.boolean().nullable(), treat: z.boolean().nullable(), limit: MoneyBody.nullable() }),
    /** Where nobody knows the owner: what that means for whoever gets it. Empty where the owner is known. */
    ownerUnknown: z.array(z.string()),
    quotes: z.array(ReferralQuoteBody),
  })
  .meta({
    id: 'ReferralPackage', description: 'What a specialist must know before a thing arrives. No name and no address of a family stands in it.',
    examples: [{
      itemId: id, tag: 'BBBC-BBB-47', description: 'Wedding quilt', count: 1, materialClass: 'textile-quilt-padded', significance: 'irreplaceable', stage: 'waiting', at: '2026-05-12T10:00:00.000Z', hoursWet: 88, sinceFlood: false,
      asItCame: look, now: look, tests: [], allColoursTested: false, weighings: [], steps: [], photographs: [], protection: { cautions: [], ppe: ['nitrile gloves'], apartFrom: [] }, never: [], referral: [],
      consent: { refer: true, treat: true, limit: { minor: 25_000, currency: 'USD' } }, ownerUnknown: [], quotes: [quote],
    }],
  });
