/**
 * Mixed objects: every part has its say. The most vulnerable one brings the routes, and a way stands where it stands
 * for the part that it suits least, so that what one part would like best is not done to another's harm.
 */
import type { CareCalibration } from './calibration.js';
import { clocksOf, startByOf } from './clocks.js';
import { applicableRules, gather, sortedByKind } from './conclusions.js';
import type { Drawn, Findings, PreparedRule } from './conclusions.js';
import { deriveFacts, partsOf } from './facts.js';
import type { Facts, MouldFact } from './facts.js';
import { MATERIALS } from './materials.js';
import { optionsOf, rankOf } from './options.js';
import type { Book } from './rule-book/book.js';
import type { Assessment, Disposition, DispositionOption, MaterialClass, StepKind, TriageContext } from './types.js';

/** The rule that speaks for what the parts together forbid. */
const MIXED_RULE = 'mixed.most-vulnerable-part';

/** What follows from one material, or from all parts of a mixed object together. */
export interface View {
  facts: Facts;
  findings: Findings;
  treatedAs: MaterialClass;
}

interface PartView extends View {
  applicable: readonly PreparedRule[];
  options: readonly DispositionOption[];
  startByMs: number;
}

function viewOfPart(assessment: Assessment, context: TriageContext, calibration: CareCalibration, book: Book): PartView {
  const facts = deriveFacts(assessment, context, calibration);
  const applicable = applicableRules(book, assessment, facts);
  const findings = gather(applicable);
  const options = optionsOf(assessment, { findings, facts, count: assessment.count, calibration });
  const { startByMs } = startByOf(findings, clocksOf(findings, facts, calibration), facts, context.nowMs, calibration);
  return { facts, findings, treatedAs: facts.handledAs, applicable, options, startByMs };
}

/** The soonest to spoil; among equals the one with the fewest ways open; then the order of the vocabulary. */
function mostVulnerableFirst(views: readonly PartView[]): PartView[] {
  return [...views].sort((a, b) => a.startByMs - b.startByMs || a.options.length - b.options.length);
}

const HOLDING_WAYS: readonly Disposition[] = ['treat', 'hold-frozen', 'hold-wet', 'release'];
/** Steps that touch the surface of a thing: all parts must stand them. */
const TOUCHING_STEPS: readonly StepKind[] = ['rinse', 'blot', 'surface-clean'];

const wayIn = (view: PartView, disposition: Disposition): DispositionOption | undefined => view.options.find((option) => option.disposition === disposition);

/** A way is open to the whole when every part has it open; a step that touches is taken when every part may be touched so. */
function forbiddenTogether(views: readonly PartView[]): Drawn[] {
  const closed = HOLDING_WAYS.filter((disposition) => views.some((view) => wayIn(view, disposition) === undefined));
  const untouched = TOUCHING_STEPS.filter((step) => views.some((view) => wayIn(view, 'treat')?.steps.every((taken) => taken.step !== step) ?? true));
  return [
    ...closed.map((disposition): Drawn => ({ kind: 'bar', disposition, ruleId: MIXED_RULE })),
    ...untouched.map((step): Drawn => ({ kind: 'omit-step', dispositions: ['treat'], step, ruleId: MIXED_RULE })),
  ];
}

/** That a part should rather be referred holds for the whole; other offers and preferences go into `offersTogether`. */
function holdsForAll(conclusion: Drawn): boolean {
  return conclusion.kind !== 'offer' && (conclusion.kind !== 'prefer' || conclusion.disposition === 'refer');
}

/** The leading part's routes, each at the place it has for the part that it suits least. */
function offersTogether(lead: PartView, views: readonly PartView[]): Drawn[] {
  return lead.findings.drawn.offer.map((offered): Drawn => {
    const own = Math.min(...lead.findings.drawn.offer.filter(({ disposition }) => disposition === offered.disposition).map(({ rank }) => rank));
    const worst = Math.max(...views.map(({ findings }) => rankOf(findings, offered.disposition) ?? 0));
    return offered.disposition === 'refer' ? offered : { ...offered, rank: worst + offered.rank - own };
  });
}

const MOULD_ORDER: readonly MouldFact[] = ['none', 'dry', 'unseen', 'active'];

function factsTogether(assessment: Assessment, lead: Facts, views: readonly PartView[]): Facts {
  const all = views.map(({ facts }) => facts);
  const worst = Math.max(...all.map(({ mould }) => MOULD_ORDER.indexOf(mould)));
  return {
    ...lead,
    traits: {
      ...lead.traits,
      size: MATERIALS[assessment.materialClass].size,
      porous: all.some(({ traits }) => traits.porous),
      heavyWhenWet: all.some(({ traits }) => traits.heavyWhenWet),
    },
    mould: MOULD_ORDER[worst] ?? lead.mould,
    degraded: all.some(({ degraded }) => degraded),
    stopHazards: [...new Set(all.flatMap(({ stopHazards }) => stopHazards))],
    stabilised: all.every(({ stabilised }) => stabilised),
  };
}

function together(assessment: Assessment, parts: readonly PartView[]): View {
  const views = mostVulnerableFirst(parts);
  const [lead] = views;
  if (lead === undefined) throw new Error('a thing without a material');
  const byPosition = new Map(views.flatMap(({ applicable }) => applicable).map((prepared) => [prepared.position, prepared]));
  const applicable = [...byPosition.values()].sort((a, b) => a.position - b.position);
  const drawn = [...applicable.flatMap(({ drawn: mine }) => mine.filter(holdsForAll)), ...offersTogether(lead, views), ...forbiddenTogether(views)];
  return {
    facts: factsTogether(assessment, lead.facts, views),
    findings: { rules: applicable.map(({ rule }) => rule), drawn: sortedByKind(drawn) },
    treatedAs: lead.treatedAs,
  };
}

/** What follows from a thing's material, or from all its parts together. */
export function viewOf(assessment: Assessment, context: TriageContext, calibration: CareCalibration, book: Book): View {
  const parts = partsOf(assessment);
  if (parts.length > 1) return together(assessment, parts.map((materialClass) => viewOfPart({ ...assessment, materialClass }, context, calibration, book)));
  const facts = deriveFacts(assessment, context, calibration);
  return { facts, findings: gather(applicableRules(book, assessment, facts)), treatedAs: facts.handledAs };
}
