import type { z } from 'zod';
import type { PlanChange, PlanComparison, PlannedAt, RevisionDetail, RevisionView } from '#application';
import { render, type Language } from '#care';
import { formatTagCode } from '#custody';
import type { PlanChangesBody, PlanRevisionBody, PlanRevisionDetailBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';
import { ADVICE, presentFigures } from './plan.presenter.js';

export function presentRevision(view: RevisionView): z.output<typeof PlanRevisionBody> {
  return {
    id: view.id, incidentId: view.incidentId, number: view.number, madeAt: iso(view.createdAtMs), state: view.inForce ? 'in-force' : view.isNewest && view.publishedAtMs === null ? 'proposal' : 'past',
    publishedAt: isoOrNull(view.publishedAtMs), publishedBy: view.publishedBy === null ? null : { id: view.publishedBy, name: view.publishedByName ?? '' }, detailKept: view.detailKept,
    seed: view.seed, iterations: view.iterations, slotMinutes: view.slotMinutes, plannedItems: view.plannedItems, unplannedItems: view.unplannedItems, inTime: view.inTime, notInTime: view.notInTime,
  };
}

export function presentRevisionDetail({ view, summary }: RevisionDetail, language: Language): z.output<typeof PlanRevisionDetailBody> {
  return { ...presentRevision(view), ...presentFigures(summary, language), standing: render(ADVICE, language) };
}

/** All of a comparison but its rows. */
export function presentComparison({ now, before, counts, settled }: PlanComparison): Omit<z.output<typeof PlanChangesBody>, 'items' | 'nextCursor'> {
  const named = ({ id, number }: RevisionView) => ({ revisionId: id, number });
  return { now: named(now), since: before && named(before), counts: { inTime: counts['in-time'], fallenOut: counts['fallen-out'], otherWay: counts['other-way'], moved: counts.moved }, settledItems: settled };
}

export function presentChange({ inWords, ...change }: PlanComparison['rows'][number], language: Language): z.output<typeof PlanChangesBody>['items'][number] {
  return {
    kind: change.kind, itemId: change.itemId, tag: formatTagCode(change.tagCode), weight: change.weight, step: change.step, dispositionBefore: change.wayBefore, dispositionNow: change.wayNow,
    before: presentWhen(change.before), now: presentWhen(change.now), blockedBy: blockedBy(change), text: render(inWords, language),
  };
}

function presentWhen(at: PlannedAt | null) {
  return at && { startsAt: iso(at.startsAtMs), place: at.placeCode };
}

function blockedBy({ blockedBy: by, resourceCode }: PlanChange) {
  return by && { kind: by.kind, what: resourceCode ?? by.what };
}
