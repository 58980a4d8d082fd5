import type { z } from 'zod';
import { type ApiKeyRecord, isActiveKey } from '#application';
import type { ApiKeyBody, NewApiKeyBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentApiKey(key: ApiKeyRecord, realNowMs: number): z.output<typeof ApiKeyBody> {
  return {
    id: key.id,
    prefix: key.prefix,
    label: key.label,
    scopes: key.scopes,
    limitedToIncidentId: key.limitedToIncidentId,
    state: key.revokedAtMs !== null ? 'revoked' : isActiveKey(key, realNowMs) ? 'active' : 'expired',
    expiresAt: iso(key.expiresAtMs),
    revokedAt: isoOrNull(key.revokedAtMs),
    replacesId: key.replacesId,
    createdAt: iso(key.createdAtMs),
  };
}

/** The answer that is stored for repeats: without the secret. */
export function presentNewApiKey(key: ApiKeyRecord, realNowMs: number): z.output<typeof NewApiKeyBody> {
  return { ...presentApiKey(key, realNowMs), secret: null };
}
