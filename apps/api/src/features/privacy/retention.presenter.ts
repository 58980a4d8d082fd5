import type { z } from 'zod';
import { daysOf, HOUSEHOLD_KINDS, INCIDENT_KINDS, type RetentionPreview, type RetentionRunRecord, type RetentionValues, type RetentionVerdict } from '#application';
import { render, say, type Language } from '#care';
import type { RetentionPreviewBody, RetentionRunBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

/** Nobody may take our defaults for what a law asks. */
export const RETENTION_NOTICE = say('These periods are numbers of ours that your network sets. They are no advice about the law: how long records must be kept, and how long they may be, is for your own counsel to say. What is under a legal hold, still with us or still open stays. What goes cannot be brought back.');

type PreviewPage = Pick<z.output<typeof RetentionPreviewBody>, 'items' | 'nextCursor'>;

function presentPolicy(policy: RetentionValues): z.output<typeof RetentionRunBody>['policy'] {
  const days = Object.fromEntries([...HOUSEHOLD_KINDS, ...INCIDENT_KINDS].map((kind) => [kind, daysOf(kind, policy)])) as z.output<typeof RetentionRunBody>['policy']['days'];
  // Runs of earlier versions know of no schedule.
  const schedule = (policy.scheduleEveryDays ?? 0) > 0 ? { everyDays: policy.scheduleEveryDays, hour: policy.scheduleHour } : null;
  return { countsFrom: policy.countFromClosing === 1 ? 'closing' : 'last-thing-left', days, schedule };
}

function presentVerdict({ countsFromMs, goes, stays }: RetentionVerdict) {
  return { countsFrom: isoOrNull(countsFromMs), goes, stays: stays.map(({ kind, count, reasons, dueAtMs }) => ({ kind, count, reasons, dueAt: isoOrNull(dueAtMs) })) };
}

export function presentHouseholdPreview({ householdId, ...verdict }: RetentionPreview['households'][number]): PreviewPage['items'][number] {
  return { householdId, ...presentVerdict(verdict) };
}

export function presentRetentionPreview(preview: RetentionPreview, page: PreviewPage, language: Language): z.output<typeof RetentionPreviewBody> {
  const { incidentId, policyRevision, totals } = preview;
  return { incidentId, asOf: iso(preview.asOfMs), policyRevision, policy: presentPolicy(preview.policy), mark: 'own-calibration', notice: render(RETENTION_NOTICE, language), ofIncident: presentVerdict(preview.ofIncident), totals, ...page };
}

export function presentRetentionRun(run: RetentionRunRecord): z.output<typeof RetentionRunBody> {
  const { id, incidentId, state, personId, principalId, policyRevision, lookedAt, touched, erased, gone } = run;
  return { id, incidentId, state, startedBy: personId === null ? 'schedule' : 'person', personId, principalId, asOf: iso(run.asOfMs), policyRevision, policy: presentPolicy(run.policy), lookedAt, touched, erased, gone, endedAt: isoOrNull(run.endedAtMs) };
}
