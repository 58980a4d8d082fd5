import type { z } from 'zod';
import type { AssessmentRecord, TriageView } from '#application';
import type { Language } from '#care';
import type { TriageBody } from '#contracts';
import { TERMINAL_STAGES } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';
import { presentChange } from '../../presenters/triage-change.presenter.js';
import { presentTriageResult } from '../../presenters/triage-result.presenter.js';

type Body = z.output<typeof TriageBody>;

export function presentTriage({ atMs, item, triage, assessment, override, change, notes, askNext }: TriageView, language: Language): Body {
  return {
    itemId: item.id,
    disposition: item.disposition,
    nextStep: item.nextStep,
    waitingForOwner: item.waitingForOwner,
    ...presentTriageResult(triage.result, askNext, language, { atMs, begun: item.stabilisedAtMs !== null || TERMINAL_STAGES.includes(item.stage) }),
    change: presentChange(change, language, atMs, notes),
    override: override === null ? null : { disposition: override.disposition, reason: override.reason, decidedBy: override.decidedBy, decidedAt: iso(override.decidedAtMs) },
    observed: presentObserved(assessment),
    origin: assessment.origin,
    assessedBy: assessment.assessedBy,
    assessedAt: iso(assessment.assessedAtMs),
    seenAgain: presentSeenAgain(assessment),
    triagedAt: iso(triage.createdAtMs),
  };
}

export function presentSeenAgain({ seenAgain }: AssessmentRecord): Body['seenAgain'] {
  return seenAgain == null ? null : { reason: seenAgain };
}

function presentObserved({ observed }: AssessmentRecord): Body['observed'] {
  const { wettedAtMs, parts, colours, ...rest } = observed;
  return { ...rest, ...(parts && { parts: [...parts] }), ...(colours && { colours: [...colours] }), wettedAt: isoOrNull(wettedAtMs) };
}
