import { bathGroupOf } from './bath-group.js';
import type { CareCalibration } from './calibration.js';
import { DEFAULT_CALIBRATION } from './calibration.js';
import { clocksOf, startByOf, urgencyOf } from './clocks.js';
import { findingsOf, prepare, reasonsOf, statements } from './conclusions.js';
import { deriveFacts } from './facts.js';
import { consentNeeded, optionsOf } from './options.js';
import { questionsFor } from './questions.js';
import { RULE_BOOK, RULE_BOOK_VERSION } from './rule-book/index.js';
import type { Scope } from './rule-book/index.js';
import { inScope } from './steps.js';
import type { Assessment, DispositionOption, TriageContext, TriageResult } from './types.js';

/** Stands under every result. */
export const STANDING =
  'Advice to a trained lead, who may override it with a recorded reason. Its clocks are rules of practice, not promises; first aid stabilises and does not restore. Local codes and trained people come first.';

const PREPARED_BOOK = prepare(RULE_BOOK);

/** A triage result without the questions, which cost some dozens of further runs. */
export type TriageOutcome = Omit<TriageResult, 'askNext'>;

/** Keeps what is said of every step, and what is said of a step that some open route really takes. */
function relevantTo(options: readonly DispositionOption[]): (scope: Scope) => boolean {
  const steps = options.flatMap((option) => option.steps);
  return (scope) => (scope.steps === undefined && scope.zones === undefined) || steps.some(({ step, zone }) => inScope(scope, step, zone));
}

/** What follows from the observations, without working out what to ask next: for re-planning many items. */
export function triageOutcome(assessment: Assessment, context: TriageContext, calibration: CareCalibration = DEFAULT_CALIBRATION): TriageOutcome {
  const facts = deriveFacts(assessment, context, calibration);
  const findings = findingsOf(PREPARED_BOOK, assessment, facts);
  const clocks = clocksOf(findings, facts, calibration);
  const { startByMs, binding } = startByOf(findings, clocks, facts, context.nowMs, calibration);
  const options = optionsOf(assessment, { findings, facts, count: assessment.count, calibration });
  const relevant = relevantTo(options);
  return {
    ruleBookVersion: RULE_BOOK_VERSION,
    urgency: urgencyOf(startByMs, context.nowMs, calibration),
    startByMs,
    clocks,
    binding,
    options,
    never: statements(findings.drawn.never),
    cautions: statements(findings.drawn.caution.filter(relevant)),
    ppe: [...new Set(findings.drawn.ppe.filter(relevant).flatMap(({ items }) => [...items]))],
    consentNeeded: consentNeeded(findings, options),
    referral: statements(findings.drawn.referral),
    bathGroup: bathGroupOf(findings, assessment, facts, options),
    reasons: reasonsOf(findings.rules),
    standing: STANDING,
  };
}

/**
 * Triage of one thing: how soon, which ways are open and in what order, what never to do, what to wear, whom
 * to ask and why. Deterministic; never throws on a well-typed assessment. Times in epoch milliseconds.
 */
export function triage(assessment: Assessment, context: TriageContext, calibration: CareCalibration = DEFAULT_CALIBRATION): TriageResult {
  const outcome = triageOutcome(assessment, context, calibration);
  const evaluate = (changed: Assessment): TriageOutcome => triageOutcome(changed, context, calibration);
  return { ...outcome, askNext: questionsFor(assessment, outcome, evaluate, context.nowMs) };
}
