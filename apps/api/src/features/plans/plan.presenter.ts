import type { z } from 'zod';
import type { AssignmentRecord, CurrentPlan, PlanRunRecord, PlanSummary, UnplannedView } from '#application';
import { render, say, startByInWords, type Language } from '#care';
import { formatTagCode } from '#custody';
import type { PlanAssignmentBody, PlanBody, PlanRunBody, UnplannedItemBody } from '#contracts';
import { presentSummary } from '../../presenters/plan-summary.presenter.js';
import { iso, isoOrNull } from '../../presenters/time.js';

export const ADVICE = say('Advice to the coordinator by the clocks and rates that are known now; rates and weights are calibrations, clocks are rules of practice. A trained lead decides, safety and local codes come first, and nobody is promised an outcome.');

export function presentPlanRun(run: PlanRunRecord, language: Language): z.output<typeof PlanRunBody> {
  return {
    id: run.id, incidentId: run.incidentId, state: run.state, reason: render(run.reason, language), requestedAt: iso(run.requestedAtMs), startedAt: isoOrNull(run.startedAtMs), finishedAt: isoOrNull(run.finishedAtMs),
    revisionId: run.revisionId, failure: run.failure && render(run.failure, language), rounds: run.state === 'running' ? run.rounds : null,
  };
}

/** What a plan can and cannot do, from its summary. */
export function presentFigures(summary: PlanSummary, language: Language) {
  const { fromMs, toMs, tight, rooms: _, outdoor: _outdoor, ...rest } = presentSummary(summary, language);
  return {
    ...rest, from: iso(fromMs), to: iso(toMs),
    tight: tight.map(({ permille, fromMs: periodFromMs, toMs: periodToMs, ...resource }) => ({ ...resource, from: iso(periodFromMs), to: iso(periodToMs), usedPct: permille / 10 })),
  };
}

export function presentPlan({ revision, summary, proposal, openRun }: CurrentPlan, language: Language): z.output<typeof PlanBody> {
  return {
    incidentId: revision.incidentId, revisionId: revision.id, number: revision.number, madeAt: iso(revision.createdAtMs), publishedAt: iso(revision.publishedAtMs ?? revision.createdAtMs), slotMinutes: revision.slotMinutes,
    plannedItems: revision.plannedItems, unplannedItems: revision.unplannedItems,
    proposal: proposal && { revisionId: proposal.id, number: proposal.number, madeAt: iso(proposal.createdAtMs) },
    ...presentFigures(summary, language),
    openRunId: openRun?.id ?? null,
    standing: render(ADVICE, language),
  };
}

export function presentAssignment({ tagCode, startsAtMs, endsAtMs, ...rest }: AssignmentRecord): z.output<typeof PlanAssignmentBody> {
  return { ...rest, tag: formatTagCode(tagCode), startsAt: iso(startsAtMs), endsAt: iso(endsAtMs) };
}

export function presentUnplanned(item: UnplannedView, language: Language, atMs: number): z.output<typeof UnplannedItemBody> {
  return {
    itemId: item.itemId, tag: formatTagCode(item.tagCode), description: item.description, siteId: item.siteId, keeper: item.keeper, weight: item.weight, startBy: isoOrNull(item.startByMs),
    startByInWords: item.stabilised || item.startByMs === null ? null : render(startByInWords(item.startByMs, atMs), language),
    stabilised: item.stabilised, blockedBy: { ...item.blockedBy, text: render(item.why, language) },
  };
}
