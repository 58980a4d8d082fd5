import type { z } from 'zod';
import type { AssignmentRecord, CurrentPlan, PlanRunRecord, UnplannedView } from '#application';
import { formatTagCode } from '#custody';
import type { PlanAssignmentBody, PlanBody, PlanRunBody, UnplannedItemBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

const ADVICE = 'Advice to the coordinator by the clocks and rates that are known now; rates and weights are calibrations, clocks are rules of practice. A trained lead decides, safety and local codes come first, and nobody is promised an outcome.';

export function presentPlanRun(run: PlanRunRecord): z.output<typeof PlanRunBody> {
  return {
    id: run.id, incidentId: run.incidentId, state: run.state, reason: run.reason, requestedAt: iso(run.requestedAtMs), startedAt: isoOrNull(run.startedAtMs), finishedAt: isoOrNull(run.finishedAtMs),
    revisionId: run.revisionId, failure: run.failure,
  };
}

export function presentPlan({ revision, summary, openRun }: CurrentPlan): z.output<typeof PlanBody> {
  const { fromMs, toMs, tight, rooms: _, ...rest } = summary;
  return {
    incidentId: revision.incidentId, revisionId: revision.id, number: revision.number, madeAt: iso(revision.createdAtMs), from: iso(fromMs), to: iso(toMs), slotMinutes: revision.slotMinutes,
    plannedItems: revision.plannedItems, unplannedItems: revision.unplannedItems,
    ...rest,
    tight: tight.map(({ permille, fromMs: periodFromMs, toMs: periodToMs, ...resource }) => ({ ...resource, from: iso(periodFromMs), to: iso(periodToMs), usedPct: permille / 10 })),
    openRunId: openRun?.id ?? null,
    standing: ADVICE,
  };
}

export function presentAssignment({ tagCode, startsAtMs, endsAtMs, ...rest }: AssignmentRecord): z.output<typeof PlanAssignmentBody> {
  return { ...rest, tag: formatTagCode(tagCode), startsAt: iso(startsAtMs), endsAt: iso(endsAtMs) };
}

export function presentUnplanned(item: UnplannedView): z.output<typeof UnplannedItemBody> {
  return {
    itemId: item.itemId, tag: formatTagCode(item.tagCode), description: item.description, siteId: item.siteId, keeper: item.keeper, weight: item.weight, startBy: isoOrNull(item.startByMs),
    stabilised: item.stabilised, blockedBy: { ...item.blockedBy, text: item.text },
  };
}
