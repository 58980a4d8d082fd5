import type { z } from 'zod';
import type { HandBackRecord, Receipt } from '#application';
import type { HandBackBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentHandBack(record: HandBackRecord): z.output<typeof HandBackBody> {
  return {
    id: record.id, incidentId: record.incidentId, householdId: record.householdId, receiver: record.receiver, identityCheck: record.identityCheck, signatureRef: record.signatureRef,
    handedAt: iso(record.handedAtMs), recordedAt: iso(record.recordedAtMs), receipt: record.receipt as Receipt,
  };
}
