import type { UseCaseCall } from '../call.js';
import type { ApiKeyRecord } from '../ports/api-key-store.js';
import type { ConfigStores } from '../ports/config-work.js';

/** A page of the network's keys, newest first, ended ones too; for a limited caller the keys of its incident. */
export function listApiKeys(stores: ConfigStores, _call: UseCaseCall, input: { limit: number; before: string | null }): Promise<ApiKeyRecord[]> {
  return stores.keys.page(input.limit, input.before);
}
