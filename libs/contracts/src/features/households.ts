import { z } from 'zod';
import { code, optionalText, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const SCOPES = ['treat', 'freeze', 'refer', 'release', 'photograph'] as const;
const MANNERS = ['spoken', 'written', 'link'] as const;

export const HouseholdParams = z.strictObject({ householdId: uuid });

const currencies = new Set(Intl.supportedValuesOf('currency'));
/** An amount in the smallest unit of its currency (ISO 4217), such as cents. */
export const MoneyBody = z.strictObject({
  minor: z.int().min(1).max(1_000_000_000_000),
  currency: z.string().refine((name) => currencies.has(name), { message: 'is no code of ISO 4217; use its three capital letters, such as USD or MXN' }),
});

const Word = z.strictObject({
  scope: z.enum(SCOPES),
  given: z.boolean(),
  manner: z.enum(MANNERS),
  note: optionalText(500),
  limit: MoneyBody.nullable().default(null).meta({ description: 'Up to how much a referral may cost; with a yes to `refer` alone.' }),
});
const limitFits = ({ scope, given, limit }: { scope: string; given: boolean; limit: unknown }): boolean => limit === null || (scope === 'refer' && given);
const LIMIT = { path: ['limit'], message: 'goes with a yes to `refer` alone; leave it out here' };

export const ConsentInput = Word.refine(limitFits, LIMIT);

export const TakeInHousehold = z
  .strictObject({
    code,
    language: z.enum(['en', 'es']).default('en'),
    contact: z.strictObject({ name: text(200), phone: optionalText(60), email: optionalText(200), address: optionalText(500) }),
    consents: z.array(ConsentInput).max(5).default([]),
  })
  .meta({ id: 'TakeInHousehold', examples: [{ code: 'HH-0042', language: 'en', contact: { name: 'Contact of household 42', phone: '', email: '', address: '' }, consents: [{ scope: 'treat', given: true, manner: 'spoken', note: '' }] }] });

export const ConsentBody = z
  .strictObject({
    id: z.string(),
    householdId: z.string(),
    itemId: z.string().nullable(),
    scope: z.enum(SCOPES),
    given: z.boolean(),
    manner: z.enum(MANNERS),
    note: z.string(),
    limit: MoneyBody.nullable(),
    recordedAt: z.string(),
  })
  .meta({ id: 'Consent', description: 'What an owner decided. Never edited: a change of mind is a newer one, and the newest word per scope counts.', examples: [{ id, householdId: id, itemId: null, scope: 'treat', given: true, manner: 'spoken', note: '', limit: null, recordedAt: '2026-05-09T07:10:00.000Z' }] });

export const HouseholdBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    code: z.string(),
    language: z.string(),
    contact: z.strictObject({ name: z.string(), phone: z.string(), email: z.string(), address: z.string() }).nullable(),
    consents: z.array(ConsentBody),
    version: z.int(),
  })
  .meta({ id: 'Household', description: 'A household with its contact: personal data, shown only to keys with a household scope.', examples: [{ id, incidentId: id, code: 'HH-0042', language: 'en', contact: null, consents: [], version: 1 }] });

export const HouseholdSummary = z
  .strictObject({ id: z.string(), incidentId: z.string(), code: z.string(), language: z.string() })
  .meta({ id: 'HouseholdSummary', examples: [{ id, incidentId: id, code: 'HH-0042', language: 'en' }] });

export const RecordConsent = Word.extend({ itemId: uuid.nullable().default(null) }).refine(limitFits, LIMIT).meta({ id: 'RecordConsent', examples: [{ scope: 'freeze', given: true, manner: 'spoken', note: '' }] });
