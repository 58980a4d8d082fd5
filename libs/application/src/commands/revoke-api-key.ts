import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ApiKeyRecord } from '../ports/api-key-store.js';
import type { ConfigStores } from '../ports/config-work.js';
import { isActiveKey } from './api-key-rules.js';

/** Ends a key at once. Revoking a revoked key changes nothing. The last one that can manage keys stays. */
export async function revokeApiKey(stores: ConfigStores, _call: UseCaseCall, input: { keyId: string }, realNowMs: number): Promise<ApiKeyRecord> {
  // Managers first and in one order: two revocations wait for each other instead of each sparing the other's key.
  const managers = await stores.keys.lockManagers();
  const key = await stores.keys.lock(input.keyId);
  if (!key) throw notFound('key');
  if (key.revokedAtMs !== null) return key;
  refuseLastManager(key, managers, realNowMs);
  await stores.keys.saveEnd(key.id, { revokedAtMs: realNowMs });
  return { ...key, revokedAtMs: realNowMs };
}

/** A key limited to one incident cannot stand in for one of the whole network: it makes only keys with its own limit. */
function refuseLastManager(key: ApiKeyRecord, managers: readonly ApiKeyRecord[], realNowMs: number): void {
  if (!key.scopes.includes('keys:manage') || !isActiveKey(key, realNowMs)) return;
  const covers = (other: ApiKeyRecord) => other.limitedToIncidentId === null || other.limitedToIncidentId === key.limitedToIncidentId;
  if (managers.some((other) => other.id !== key.id && isActiveKey(other, realNowMs) && covers(other))) return;
  throw new Problem('key_last_manager', 'This is the last key that can manage keys here. Create or rotate one with the scope keys:manage first, then revoke this one.');
}
