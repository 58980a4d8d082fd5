import { bathGroupOf } from './bath-group.js';
import type { CareCalibration } from './calibration.js';
import { DEFAULT_CALIBRATION } from './calibration.js';
import { clocksOf, startByOf, urgencyOf } from './clocks.js';
import { reasonsOf, statements } from './conclusions.js';
import type { DrawnByKind, Findings } from './conclusions.js';
import { consentNeeded, optionsOf } from './options.js';
import { viewOf } from './parts.js';
import { questionsFor } from './questions.js';
import { DEFAULT_BOOK } from './rule-book/index.js';
import type { Book, Scope } from './rule-book/index.js';
import { inScope, protectedAsIn } from './steps.js';
import type { Apart, Assessment, Clock, DispositionOption, FreezerSettings, Statement, TriageContext, TriageResult } from './types.js';

/** Stands under every result. */
export const STANDING =
  'Advice to a trained lead, who may override it with a recorded reason. Its clocks are rules of practice, not promises; first aid stabilises and does not restore. Local codes and trained people come first.';

/** A triage result without the questions, which cost some dozens of further runs. */
export type TriageOutcome = Omit<TriageResult, 'askNext'>;

/** Keeps what is said of every step, and what is said of a step that some open route really takes. */
function relevantTo(options: readonly DispositionOption[]): (scope: Scope) => boolean {
  const steps = options.flatMap((option) => option.steps);
  return (scope) => (scope.steps === undefined && scope.zones === undefined) || steps.some(({ step, zone }) => inScope(scope, step, protectedAsIn(step, zone)));
}

/** What must never be done, what keeps people safe first, otherwise in the order of the book. */
function neversOf({ rules, drawn }: Findings): Statement[] {
  const safety = new Set(rules.filter(({ floor }) => floor === true).map(({ id }) => id));
  const rank = ({ ruleId }: { ruleId: string }): number => (safety.has(ruleId) ? 0 : 1);
  // The sort is stable.
  return statements(drawn.never.toSorted((a, b) => rank(a) - rank(b)));
}

/** What it is kept from, each sentence once for a place. */
function apartFrom(drawn: DrawnByKind): Apart[] {
  const byKey = new Map<string, Apart>();
  for (const { ruleId, text, place } of drawn.apart) if (!byKey.has(place + text)) byKey.set(place + text, { ruleId, text, place });
  return [...byKey.values()];
}

function freezerFor(options: readonly DispositionOption[], drawn: DrawnByKind, { freezer }: CareCalibration): FreezerSettings | null {
  if (!options.some(({ disposition }) => disposition === 'hold-frozen')) return null;
  if (drawn['not-colder'].length === 0) return { freezeToC: freezer.freezeToC, holdAtMostC: freezer.holdAtMostC, notColderThanC: null };
  const limit = freezer.discsNotColderC;
  return { freezeToC: Math.max(freezer.freezeToC, limit), holdAtMostC: Math.max(freezer.holdAtMostC, limit), notColderThanC: limit };
}

/** What a reader asks for first: why so soon, why this way, why not the others, whom to ask. */
function decisiveRules(clocks: readonly Clock[], drawn: DrawnByKind, options: readonly DispositionOption[]): string[] {
  const ways = options.flatMap(({ ruleIds }) => ruleIds);
  return [...clocks.slice(0, 1), ...drawn['start-by'], ...drawn.referral].map(({ ruleId }) => ruleId).concat(ways, drawn.bar.map(({ ruleId }) => ruleId));
}

/**
 * What follows from the observations, without working out what to ask next: for re-planning many items. `calibration`
 * holds a network's own numbers; the choices of `book` go over them.
 */
export function triageOutcome(assessment: Assessment, context: TriageContext, calibration: CareCalibration = DEFAULT_CALIBRATION, book: Book = DEFAULT_BOOK): TriageOutcome {
  const numbers = book.calibrate(calibration);
  const { facts, findings, treatedAs } = viewOf(assessment, context, numbers, book);
  const clocks = clocksOf(findings, facts, numbers);
  const { startByMs, binding } = startByOf(findings, clocks, facts, context.nowMs, numbers);
  const options = optionsOf(assessment, { findings, facts, count: assessment.count, calibration: numbers });
  const relevant = relevantTo(options);
  const { drawn } = findings;
  return {
    ruleBookVersion: book.version,
    urgency: urgencyOf(startByMs, context.nowMs, numbers),
    startByMs,
    clocks,
    binding,
    options,
    never: neversOf(findings),
    cautions: statements(drawn.caution.filter(relevant)),
    ppe: [...new Set(drawn.ppe.filter(relevant).flatMap(({ items }) => [...items]))],
    consentNeeded: consentNeeded(findings, options),
    referral: statements(drawn.referral),
    bathGroup: bathGroupOf(findings, assessment, facts, options),
    apartFrom: apartFrom(drawn),
    freezer: freezerFor(options, drawn, numbers),
    storage: statements(drawn.storage),
    treatedAs,
    reasons: reasonsOf(findings.rules, decisiveRules(clocks, drawn, options)),
    standing: STANDING,
  };
}

/**
 * Triage of one thing: how soon, which ways are open and in what order, what never to do, what to wear, whom
 * to ask and why. Deterministic; never throws on a well-typed assessment. Times in epoch milliseconds.
 */
export function triage(assessment: Assessment, context: TriageContext, calibration: CareCalibration = DEFAULT_CALIBRATION, book: Book = DEFAULT_BOOK): TriageResult {
  const outcome = triageOutcome(assessment, context, calibration, book);
  const evaluate = (changed: Assessment): TriageOutcome => triageOutcome(changed, context, calibration, book);
  return { ...outcome, askNext: questionsFor(assessment, outcome, evaluate, context.nowMs) };
}
