import type { UseCaseCall } from '../call.js';
import type { AuditEntry } from '../ports/audit-store.js';
import type { Stores } from '../ports/work.js';

/** A page of the commands that were carried out, newest first; for a limited caller those of keys with the same limit. */
export function listAuditEntries(stores: Stores, _call: UseCaseCall, input: { limit: number; before: string | null }): Promise<AuditEntry[]> {
  return stores.audit.page(input.limit, input.before);
}
