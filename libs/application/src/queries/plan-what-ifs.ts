import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { PlanWhatIfRecord, WhatIfLayout } from '../ports/plan-what-if-store.js';
import type { Stores } from '../ports/work.js';

/** A what-if with what its words name. */
export interface PlanWhatIfView {
  whatIf: PlanWhatIfRecord;
  layout: WhatIfLayout;
  /** Tag and description by item. */
  labels: ReadonlyMap<string, { tagCode: string; description: string }>;
}

/** How a what-if stands, and what came of it. @throws Problem not_found */
export async function getPlanWhatIf(stores: Stores, _call: UseCaseCall, input: { planWhatIfId: string }): Promise<PlanWhatIfView> {
  const whatIf = await stores.planWhatIfs.find(input.planWhatIfId);
  if (!whatIf) throw notFound('what-if');
  const named = (whatIf.result?.values ?? []).flatMap(({ saved, lost }) => [...saved, ...lost].map(({ itemId }) => itemId));
  const ids = new Set(whatIf.itemId === null ? named : [...named, whatIf.itemId]);
  return { whatIf, layout: await stores.planWhatIfs.layout(whatIf.incidentId), labels: await stores.planWhatIfs.labels([...ids]) };
}
