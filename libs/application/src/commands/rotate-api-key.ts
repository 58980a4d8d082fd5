import { notFound, Problem, type RotateApiKey } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ApiKeyRecord } from '../ports/api-key-store.js';
import type { ConfigStores } from '../ports/config-work.js';
import { expiryMs, isActiveKey, KEY_LIFE_MS_MAX, type KeyCall, refuseForeignScopes } from './api-key-rules.js';

const HOUR_MS = 3_600_000;

/** Makes a successor with the same powers; the old key works on for the overlap, never longer than it would have. */
export async function rotateApiKey(stores: ConfigStores, call: UseCaseCall, input: RotateApiKey & { keyId: string }, edge: KeyCall): Promise<ApiKeyRecord> {
  const old = await stores.keys.lock(input.keyId);
  if (!old) throw notFound('key');
  if (!isActiveKey(old, edge.realNowMs)) throw new Problem('command_refused', 'The key has ended. Create a new one instead.');
  // The answer holds a working key, so rotating a stronger key would be a way to become stronger.
  refuseForeignScopes(old.scopes, edge.scopes, null);
  const lifeMs = Math.min(old.expiresAtMs - old.createdAtMs, KEY_LIFE_MS_MAX);
  const successor: ApiKeyRecord = {
    ...old,
    id: call.env.newId(),
    prefix: edge.made.prefix,
    expiresAtMs: input.expiresAt === undefined ? edge.realNowMs + lifeMs : expiryMs(input.expiresAt, edge.realNowMs),
    replacesId: old.id,
    createdAtMs: edge.realNowMs,
  };
  await stores.keys.insert(successor, edge.made.secretSha256);
  await stores.keys.saveEnd(old.id, { expiresAtMs: Math.min(old.expiresAtMs, edge.realNowMs + Math.round(input.overlapHours * HOUR_MS)) });
  return successor;
}
