/** The dispositions that are open, best first, each with its route and with what is still missing. */
import type { Drawn, Findings } from './conclusions.js';
import { careSteps, inWorkingOrder } from './steps.js';
import type { RouteContext } from './steps.js';
import { DISPOSITIONS } from './types.js';
import type { Assessment, Disposition, DispositionOption, Statement, StepKind } from './types.js';

interface Ranked {
  option: DispositionOption;
  rank: number;
  refused: boolean;
}

function routeOf(findings: Findings, disposition: Disposition, base: readonly StepKind[]): { steps: StepKind[]; ruleIds: string[] } {
  const mine = <T extends { dispositions: readonly Disposition[] }>(entries: readonly T[]): T[] => entries.filter((entry) => entry.dispositions.includes(disposition));
  const added = mine(findings.drawn['add-step']);
  const omitted = mine(findings.drawn['omit-step']).filter(({ step }) => base.includes(step) || added.some((entry) => entry.step === step));
  const wanted = new Set([...base, ...added.map(({ step }) => step)]);
  for (const { step } of omitted) wanted.delete(step);
  return { steps: inWorkingOrder(wanted), ruleIds: [...added, ...omitted].map(({ ruleId }) => ruleId) };
}

function refusedBy(assessment: Assessment, needs: readonly Drawn<'need'>[]): boolean {
  return needs.some(({ consent }) => consent !== null && assessment.consents[consent] === false);
}

/** Place of a disposition in the order: its best offer, or a preference before that; null when nothing offers it. */
export function rankOf({ drawn }: Findings, disposition: Disposition): number | null {
  const offered = drawn.offer.filter((entry) => entry.disposition === disposition).map(({ rank }) => rank);
  if (offered.length === 0) return null;
  return Math.min(...offered, ...drawn.prefer.filter((entry) => entry.disposition === disposition).map(({ rank }) => rank));
}

function rankedOption(findings: Findings, disposition: Disposition, assessment: Assessment, context: RouteContext): Ranked | null {
  const offers = findings.drawn.offer.filter((entry) => entry.disposition === disposition);
  const best = offers.reduce<Drawn<'offer'> | null>((kept, entry) => (kept === null || entry.rank < kept.rank ? entry : kept), null);
  const barred = findings.drawn.bar.some((entry) => entry.disposition === disposition);
  if (best === null || barred) return null;
  const preferences = findings.drawn.prefer.filter((entry) => entry.disposition === disposition && entry.rank < best.rank);
  const needs = findings.drawn.need.filter((entry) => entry.dispositions.includes(disposition));
  const route = routeOf(findings, disposition, best.steps);
  return {
    rank: Math.min(best.rank, ...preferences.map(({ rank }) => rank)),
    refused: refusedBy(assessment, needs),
    option: {
      disposition,
      ruleIds: [...new Set([best.ruleId, ...preferences.map(({ ruleId }) => ruleId), ...route.ruleIds, ...needs.map(({ ruleId }) => ruleId)])],
      needs: [...new Set(needs.map(({ text }) => text))],
      steps: careSteps(route.steps, disposition, context),
    },
  };
}

/**
 * Open dispositions, best first. Those the owner has refused stand last and ask for a new decision. Never
 * empty: the rule book always offers a referral and bars it nowhere.
 */
export function optionsOf(assessment: Assessment, context: RouteContext): DispositionOption[] {
  return DISPOSITIONS.map((disposition) => rankedOption(context.findings, disposition, assessment, context))
    .filter((ranked) => ranked !== null)
    .sort((a, b) => Number(a.refused) - Number(b.refused) || a.rank - b.rank)
    .map(({ option }) => option);
}

/** What the owner must still decide, for the dispositions that are open. */
export function consentNeeded(findings: Findings, options: readonly DispositionOption[]): Statement[] {
  const open = new Set(options.map(({ disposition }) => disposition));
  const byText = new Map<string, Statement>();
  for (const { ruleId, text, consent, dispositions } of findings.drawn.need) {
    if (consent !== null && !byText.has(text) && dispositions.some((disposition) => open.has(disposition))) byText.set(text, { ruleId, text });
  }
  return [...byText.values()];
}
