import type { z } from 'zod';
import type { AuditEntry } from '#application';
import type { AuditEntryBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentAuditEntry(entry: AuditEntry): z.output<typeof AuditEntryBody> {
  return {
    id: entry.id,
    keyId: entry.principalId,
    operation: entry.operation,
    subjectKind: entry.subjectKind,
    subjectId: entry.subjectId,
    outcome: entry.outcome,
    requestId: entry.requestId,
    at: iso(entry.atMs),
  };
}
