import { type ChangeShift, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { ShiftRecord } from '../ports/layout-store.js';
import { findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';

/** Moves the end of a shift: somebody goes home or stays longer. An end at the start says that nobody came. */
export async function changeShift(stores: ConfigStores, call: UseCaseCall, input: ChangeShift & VersionedTarget): Promise<ShiftRecord> {
  const found = await findUnchanged(stores.layout, 'shift', input);
  const endsAtMs = input.endsAt === undefined ? undefined : Date.parse(input.endsAt);
  if (endsAtMs !== undefined && endsAtMs < found.startsAtMs) {
    throw new Problem('validation_failed', 'The shift would end before it starts. Nothing was changed.', {
      errors: [{ detail: `lies before the start, ${new Date(found.startsAtMs).toISOString()}`, code: 'custom', pointer: '#/endsAt' }],
    });
  }
  const shift = await saveUnchanged(stores.layout, 'shift', input, found, { endsAtMs });
  if (shift.endsAtMs !== found.endsAtMs) await requestPlan(stores, call, input.incidentId, PLAN_REASONS.shift);
  return shift;
}
