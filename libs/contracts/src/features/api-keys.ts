import { z } from 'zod';
import { instant, PageQuery, text, uuid } from '../primitives.js';
import { SCOPES } from '../scopes.js';

const scope = z.enum(SCOPES);

export const ApiKeyParams = z.strictObject({ keyId: uuid });
export const ApiKeyListQuery = PageQuery;

/** Longest life of a key; ours, so that every key is looked at once a year with some slack. */
export const KEY_LIFE_DAYS_MAX = 400;
/** How long the old key still works after a rotation unless the request says otherwise, and at most. */
export const KEY_OVERLAP_HOURS_DEFAULT = 24;
export const KEY_OVERLAP_HOURS_MAX = 720;

const scopes = z
  .array(scope)
  .min(1)
  .max(SCOPES.length)
  .refine((list) => new Set(list).size === list.length, { message: 'names a scope twice' });

export const CreateApiKey = z
  .strictObject({
    label: text(120),
    scopes,
    expiresAt: instant.describe(`At most ${KEY_LIFE_DAYS_MAX} days from now.`),
    limitedToIncidentId: uuid.nullable().default(null).describe('Then nothing of another incident exists for the key.'),
  })
  .meta({ id: 'CreateApiKey', examples: [{ label: 'Tablet at the rinse baths', scopes: ['item:read', 'station:work'], expiresAt: '2026-06-30T00:00:00Z', limitedToIncidentId: null }] });
export type CreateApiKey = z.output<typeof CreateApiKey>;

export const RotateApiKey = z
  .strictObject({
    overlapHours: z.number().min(0).max(KEY_OVERLAP_HOURS_MAX).default(KEY_OVERLAP_HOURS_DEFAULT).describe('Hours for which the old key still works; 0 ends it at once.'),
    expiresAt: instant.optional().describe('Left out: the new key lives as long as the old one was made for.'),
  })
  .meta({ id: 'RotateApiKey', examples: [{ overlapHours: 24 }] });
export type RotateApiKey = z.output<typeof RotateApiKey>;

export const RevokeApiKey = z.strictObject({}).meta({ id: 'RevokeApiKey', examples: [{}] });

const KEY = {
  id: '01970c1e-5a42-7200-8a11-1f2e3d4c5b01',
  prefix: 'h4x0q9tz',
  label: 'Tablet at the rinse baths',
  scopes: ['item:read' as const, 'station:work' as const],
  limitedToIncidentId: null,
  state: 'active' as const,
  expiresAt: '2026-06-30T00:00:00.000Z',
  revokedAt: null,
  replacesId: null,
  createdAt: '2026-05-09T05:40:00.000Z',
};

const keyMembers = {
  id: uuid,
  prefix: z.string().describe('The eight characters after `wk_`, to tell keys apart; not a secret.'),
  label: z.string(),
  scopes: z.array(scope),
  limitedToIncidentId: uuid.nullable(),
  state: z.enum(['active', 'expired', 'revoked']),
  expiresAt: instant,
  revokedAt: instant.nullable(),
  replacesId: uuid.nullable().describe('The key that this one took over from.'),
  createdAt: instant,
};

export const ApiKeyBody = z.strictObject(keyMembers).meta({ id: 'ApiKey', description: 'An API key, without its secret.', examples: [KEY] });

export const NewApiKeyBody = z
  .strictObject({
    ...keyMembers,
    secret: z.string().nullable().describe('The key itself, shown in the answer that made it and never again; null when that answer is repeated.'),
  })
  .meta({
    id: 'NewApiKey',
    description: 'A new API key. `secret` is the whole key; only its hash is kept, so a repeated request answers null there. Who lost it rotates the key.',
    examples: [{ ...KEY, secret: 'wk_h4x0q9tz_EXAMPLE-ONLY-EXAMPLE-ONLY-EXAMPLE-ONLY-EXAMPL' }],
  });
