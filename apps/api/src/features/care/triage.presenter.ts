import type { z } from 'zod';
import type { AssessmentRecord, TriageView } from '#application';
import type { TriageBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

type Body = z.output<typeof TriageBody>;

export function presentTriage({ item, triage, assessment, override, askNext }: TriageView): Body {
  const { result } = triage;
  return {
    itemId: item.id,
    disposition: item.disposition,
    nextStep: item.nextStep,
    waitingForOwner: item.waitingForOwner,
    urgency: result.urgency,
    startBy: iso(result.startByMs),
    binding: result.binding,
    clocks: result.clocks.map((clock) => ({ damage: clock.damage, warnAt: iso(clock.warnAtMs), deadlineAt: iso(clock.deadlineAtMs), ruleId: clock.ruleId })),
    options: result.options,
    never: result.never,
    cautions: result.cautions,
    ppe: result.ppe,
    consentNeeded: result.consentNeeded,
    referral: result.referral,
    bathGroup: result.bathGroup,
    reasons: result.reasons,
    askNext,
    override: override === null ? null : { disposition: override.disposition, reason: override.reason, decidedBy: override.decidedBy, decidedAt: iso(override.decidedAtMs) },
    observed: presentObserved(assessment),
    origin: assessment.origin,
    assessedBy: assessment.assessedBy,
    assessedAt: iso(assessment.assessedAtMs),
    triagedAt: iso(triage.createdAtMs),
    ruleBookVersion: result.ruleBookVersion,
    standing: result.standing,
  };
}

function presentObserved({ observed }: AssessmentRecord): Body['observed'] {
  const { wettedAtMs, ...rest } = observed;
  return { ...rest, wettedAt: isoOrNull(wettedAtMs) };
}
