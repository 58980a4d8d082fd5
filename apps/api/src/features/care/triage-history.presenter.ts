import type { z } from 'zod';
import type { OverrideReview, TriageHistoryEntry } from '#application';
import { sourceInLanguage, translate, type Language } from '#care';
import type { DispositionOverrideBody, TriageHistoryEntryBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';
import { presentChange } from '../../presenters/triage-change.presenter.js';
import { presentSeenAgain } from './triage.presenter.js';

export function presentHistoryEntry({ triage, assessment, change }: TriageHistoryEntry, language: Language): z.output<typeof TriageHistoryEntryBody> {
  const { result } = triage;
  return {
    triagedAt: iso(triage.createdAtMs), ruleBookVersion: result.ruleBookVersion, urgency: result.urgency, startBy: iso(result.startByMs), binding: result.binding,
    firstDisposition: result.options[0]?.disposition ?? 'refer',
    origin: assessment.origin, assessedBy: assessment.assessedBy, assessedAt: iso(assessment.assessedAtMs), seenAgain: presentSeenAgain(assessment),
    change: presentChange(change, language, triage.createdAtMs),
  };
}

export function presentOverride({ override, stands, verdict, firstNow, ruleBookVersion, barredBy }: OverrideReview, language: Language): z.output<typeof DispositionOverrideBody> {
  return {
    id: override.id, itemId: override.itemId, tag: formatTagCode(override.tagCode), disposition: override.disposition,
    insteadOf: override.insteadOf, ruleBookVersion: override.ruleBookVersion, openNeeds: override.openNeeds?.map((need) => translate(need, language)) ?? null,
    reason: override.reason, decidedBy: override.lead, decidedAt: iso(override.decidedAtMs), stands,
    ruleBookNow: {
      verdict, firstDisposition: firstNow, version: ruleBookVersion,
      barredBy: barredBy.map(({ ruleId, text, source, floor }) => ({ ruleId, text: translate(text, language), source: sourceInLanguage(source, language), floor })),
    },
    item: { stage: override.stage, disposition: override.followed, stabilisedAt: isoOrNull(override.stabilisedAtMs) },
  };
}
