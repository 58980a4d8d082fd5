import type { z } from 'zod';
import { receiptInLanguage, type HandBackRecord, type Receipt } from '#application';
import type { Language } from '#care';
import type { HandBackBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentHandBack(record: HandBackRecord, language: Language): z.output<typeof HandBackBody> {
  return {
    id: record.id, incidentId: record.incidentId, householdId: record.householdId, receiver: record.receiver, identityCheck: record.identityCheck, signatureRef: record.signatureRef,
    personId: record.personId, appointmentId: record.appointmentId, signed: record.signatureSealed !== null, codeUsed: record.codeUsed, reserved: record.reservationsSealed !== null,
    handedAt: iso(record.handedAtMs), recordedAt: iso(record.recordedAtMs), receipt: receiptInLanguage(record.receipt as Receipt, language),
  };
}
