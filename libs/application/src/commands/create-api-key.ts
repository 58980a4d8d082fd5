import { type CreateApiKey, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ApiKeyRecord } from '../ports/api-key-store.js';
import type { ConfigStores } from '../ports/config-work.js';
import { expiryMs, type KeyCall, refuseForeignScopes } from './api-key-rules.js';

/** Makes a key with scopes of the caller's own, for the whole network or for one incident. */
export async function createApiKey(stores: ConfigStores, call: UseCaseCall, input: CreateApiKey, edge: KeyCall): Promise<ApiKeyRecord> {
  refuseForeignScopes(input.scopes, edge.scopes, '#/scopes');
  const key: ApiKeyRecord = {
    id: call.env.newId(),
    prefix: edge.made.prefix,
    label: input.label,
    scopes: input.scopes,
    limitedToIncidentId: await limitOf(stores, call, input.limitedToIncidentId),
    expiresAtMs: expiryMs(input.expiresAt, edge.realNowMs),
    revokedAtMs: null,
    replacesId: null,
    createdAtMs: edge.realNowMs,
  };
  await stores.keys.insert(key, edge.made.secretSha256);
  return key;
}

/** A caller who is limited makes keys with the same limit, whether the request says so or not. */
async function limitOf(stores: ConfigStores, call: UseCaseCall, wanted: string | null): Promise<string | null> {
  const limit = wanted ?? call.context.incidentLimit;
  if (limit === null || (await stores.keys.incidentExists(limit))) return limit;
  throw new Problem('reference_unknown', 'No incident with this id is visible to your key.', {
    errors: [{ detail: 'names no incident that your key sees', code: 'reference_unknown', pointer: '#/limitedToIncidentId' }],
  });
}
