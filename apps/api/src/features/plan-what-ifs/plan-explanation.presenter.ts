import type { z } from 'zod';
import { blockerInWords, type PlanExplanation, type PlanExplanationGround } from '#application';
import { render, say, type Language } from '#care';
import { formatTagCode } from '#custody';
import type { PlanExplanationBody } from '#contracts';
import { iso } from '../../presenters/time.js';

const AS_IT_WAS = say('As things stood when the plan was made. The search weighs the whole of the incident, so no reason here stands alone. Advice to a trained lead, who may decide otherwise with a recorded reason; safety and local codes come first.');

type Body = z.output<typeof PlanExplanationBody>;
type Blocked = NonNullable<Body['blockedBy']>;
type Step = NonNullable<PlanExplanation['explanation']>['steps'][number];

export function presentPlanExplanation({ labels }: PlanExplanationGround, found: PlanExplanation, language: Language): Body {
  const { explanation, revision, before, wouldHelp } = found;
  const tagOf = (id: string): string => formatTagCode(labels.get(id)?.tagCode ?? '');
  const blocked = (blocker: PlanExplanation['blockedBy']): Blocked | null =>
    blocker && { ...blocker, text: render(blockerInWords({ ...blocker, what: nameOf(found, blocker.what) }), language) };
  return {
    itemId: found.itemId, tag: tagOf(found.itemId), revisionId: revision.id, revisionNumber: revision.number, madeAt: iso(revision.createdAtMs), state: found.state,
    disposition: explanation?.disposition ?? null,
    steps: (explanation?.steps ?? []).map((step) => presentStep(step, found, blocked)),
    stabilisedAt: explanation?.stabilisedAtSlot == null ? null : iso(momentMsOf(found, explanation.stabilisedAtSlot)),
    slackMinutes: explanation?.slackSlots == null ? null : explanation.slackSlots * found.slotMinutes,
    blockedBy: blocked(found.blockedBy),
    passedOver: (explanation?.passedOver ?? []).map(({ disposition, blockedBy }) => ({ disposition, blockedBy: blocked(blockedBy) })),
    inWords: found.text.map((message) => render(message, language)),
    wouldHelp: wouldHelp && { planWhatIfId: wouldHelp.planWhatIfId, asOf: iso(wouldHelp.asOfMs), inWords: render(wouldHelp.text, language) },
    before: before && {
      otherItemId: before.otherItemId, otherTag: tagOf(before.otherItemId), firstItemId: before.precedence.firstItemId, reasons: before.precedence.reasons.map(({ kind }) => kind),
      inWords: before.precedence.text.map((message) => render(message, language)),
    },
    standing: render(AS_IT_WAS, language),
  };
}

function presentStep(step: Step, found: PlanExplanation, blocked: (blocker: PlanExplanation['blockedBy']) => Blocked | null): Body['steps'][number] {
  const place = (kind: Body['steps'][number]['places'][number]['kind'], id: string | null) => (id === null ? [] : [{ kind, id, code: nameOf(found, id) }]);
  return {
    position: step.position, step: step.step, startsAt: iso(momentMsOf(found, step.startSlot)), endsAt: iso(momentMsOf(found, step.endSlot)),
    places: [...place('station', step.stationId), ...place('drying-place', step.dryingPlaceId), ...place('freezer', step.freezerId), ...place('specialist', step.step === 'refer' ? step.serviceId : null)],
    waitMinutes: step.waitSlots * found.slotMinutes, waitsFor: blocked(step.waitsFor), because: step.because,
    alternatives: step.alternatives.map(({ kind, id, because }) => ({ kind, id, code: nameOf(found, id), because })),
  };
}

function nameOf({ names }: PlanExplanation, id: string): string {
  return names.get(id) ?? id;
}

function momentMsOf({ originMs, slotMinutes }: PlanExplanation, slot: number): number {
  return originMs + slot * slotMinutes * 60_000;
}
