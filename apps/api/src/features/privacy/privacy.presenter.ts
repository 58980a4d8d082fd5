import type { z } from 'zod';
import { type ErasureRecord, HELD_LEFT_OUT, type HeldData, type HoldView } from '#application';
import type { ErasureBody, HeldDataBody, LegalHoldBody } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentErasure(erasure: ErasureRecord): z.output<typeof ErasureBody> {
  const { id, householdId, incidentId, reason, decidedBy, items, files, wordsInChain } = erasure;
  return { id, householdId, incidentId, reason, decidedBy, erasedAt: iso(erasure.erasedAtMs), items, files, wordsInChain };
}

export function presentHold({ hold, reason }: HoldView): z.output<typeof LegalHoldBody> {
  const { id, householdId, incidentId, placedBy, liftedBy, version } = hold;
  return { id, householdId, incidentId, reason, placedBy, placedAt: iso(hold.placedAtMs), liftedBy, liftedAt: hold.liftedAtMs === null ? null : iso(hold.liftedAtMs), version };
}

export function presentHeldData(data: HeldData): z.output<typeof HeldDataBody> {
  const { householdId, incidentId, erasure, held } = data;
  return { householdId, incidentId, madeAt: iso(data.madeAtMs), erasure: erasure && presentErasure(erasure), held, leftOut: [...HELD_LEFT_OUT] };
}
