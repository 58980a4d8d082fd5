import { dyeState, type Disposition, type DispositionOption, type StepKind } from '#care';
import { Problem } from '#contracts';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { StepOutcome } from '../ports/step-store.js';
import type { TriageRecord } from '../ports/assessment-store.js';
import { settledSteps } from './done-steps.js';
import { chooseOption, nextStepOf } from './route.js';
import { wasUnderWay, type Standing } from './standing.js';

export interface ReportedStep {
  step: StepKind;
  outcome: StepOutcome;
  /** The way on whose route the step stood, as the plan or the list said; null for the item's own or the one it fits. */
  disposition: Disposition | null;
}

/** What the order of steps is judged by. */
export interface OrderFacts {
  item: ItemRecord;
  standing: Standing;
  triage: TriageRecord;
  /** The station that has the item in hand, if one has. */
  station: PlaceRecord | null;
}

/** Steps with a route of their own, because more than an outcome must be known. */
const OWN_ROUTE: Partial<Record<StepKind, string>> = {
  refer: 'POST /v1/items/{itemId}/referrals',
  release: 'POST /v1/items/{itemId}/releases',
  'hand-back': 'POST /v1/households/{householdId}/hand-backs',
};

/**
 * Finds the way on whose route a reported step stands, or refuses it: a step is done when it is the next one, and a
 * finding is taken for every step of the route.
 * @throws Problem wrong_stage (names the next step) or command_refused
 */
export function wayOfStep(facts: OrderFacts, reported: ReportedStep): DispositionOption {
  const { item, triage } = facts;
  refuseOwnRoute(reported.step);
  if (item.stage === 'referred-out') throw wrongStage(facts, 'It is with a specialist. Record that it came back with POST /v1/items/{itemId}/referral-returns first.');
  const own = chooseOption(triage.result, item.disposition);
  if (isClosingLook(facts, reported)) return own;
  if (reported.step === 'thaw') return mayThaw(facts) ? own : refuseOutOfOrder(facts, reported);
  if (item.stage === 'held-frozen' && reported.step !== 'freeze') throw wrongStage(facts, 'It is frozen. Record the step `thaw` first; what comes after it starts anew.');
  if (wasUnderWay(facts.standing, reported.step)) return triage.result.options.find((way) => way.steps.some((care) => care.step === reported.step)) ?? own;
  const ways = waysFor(facts, reported, own);
  const fits = reported.outcome === 'done' ? ways.find((way) => isNext(facts, way, reported.step)) : ways.find((way) => way.steps.some((care) => care.step === reported.step));
  return fits ?? refuseOutOfOrder(facts, reported);
}

function refuseOwnRoute(step: StepKind): void {
  const route = OWN_ROUTE[step];
  if (route) throw new Problem('command_refused', `The step \`${step}\` is recorded by its own route, because it needs more than an outcome: ${route}.`, { members: { route } });
}

/** The ways a report may belong to: the one it names, else the item's own, else another that is open now and not against a lead's choice. */
function waysFor({ triage, standing }: Omit<OrderFacts, 'station'>, reported: ReportedStep, own: DispositionOption): DispositionOption[] {
  const lead = standing.override?.disposition ?? null;
  if (reported.disposition === null) return [own, ...(lead === null ? triage.result.options.filter((option) => option !== own && option.needs.length === 0) : [])];
  if (lead !== null && lead !== reported.disposition) {
    throw new Problem('command_refused', `A lead has decided for \`${lead}\`, so \`${reported.disposition}\` is not the way of this item any more. Read the item and its list again.`, { errors: [{ detail: 'is not the way that the lead chose', code: 'disposition_overruled', pointer: '#/disposition' }] });
  }
  const named = triage.result.options.find((option) => option.disposition === reported.disposition);
  if (!named) throw new Problem('command_refused', `The rule book does not offer \`${reported.disposition}\` for this item (any more). Read its triage for the ways that are open.`, { errors: [{ detail: 'is not offered for this item', code: 'disposition_not_offered', pointer: '#/disposition' }] });
  return [named];
}

/**
 * True when the step is what comes now: on the item's own way or, as long as no lead has chosen, on another that is open.
 * The rule by which a reported step is judged, for events that name no way.
 */
export function comesNow(facts: Omit<OrderFacts, 'station'>, step: StepKind): boolean {
  const own = chooseOption(facts.triage.result, facts.item.disposition);
  return waysFor(facts, { step, outcome: 'done', disposition: null }, own).some((way) => isNext(facts, way, step));
}

function isNext({ item, standing }: Omit<OrderFacts, 'station'>, way: DispositionOption, step: StepKind): boolean {
  // What the item shows as its next step is what people were told; only another way is worked out afresh.
  if (way.disposition === item.disposition) return item.nextStep === step;
  return nextStepOf(item.stage, way, settledSteps(standing.done, standing.assessment.observed.mould))?.care.step === step;
}

/** Frozen, or thawed a moment ago by a custody event of its own. */
function mayThaw({ item, standing }: OrderFacts): boolean {
  return item.stage === 'held-frozen' || item.nextStep === 'thaw' || standing.done.has('freeze');
}

/**
 * A look or a colour test is recorded with what was seen; the report that follows closes the work at the station.
 * Without readings it would declare dyes safe that nobody has tested.
 */
function isClosingLook(facts: OrderFacts, reported: ReportedStep): boolean {
  const { step, outcome } = reported;
  if (step !== 'assess' && step !== 'colour-test') return false;
  const { item, standing, station } = facts;
  const known = step === 'assess' ? standing.done.has('assess') : dyeState(standing.assessment.observed) !== 'untested';
  if (outcome === 'done' && !known) {
    const route = step === 'assess' ? 'POST /v1/items/{itemId}/assessments' : 'POST /v1/items/{itemId}/colour-tests';
    throw new Problem('command_refused', `Record what was seen first: ${route}. The step counts as done with it.`, { members: { route } });
  }
  return item.stage === 'in-work' && station !== null && station.steps.includes(step);
}

function refuseOutOfOrder(facts: OrderFacts, reported: ReportedStep): never {
  const { item } = facts;
  const next = item.nextStep === null ? 'Nothing more is to be done on its present way.' : `Its next step is \`${item.nextStep}\`.`;
  throw wrongStage(facts, `The step \`${reported.step}\` is not what comes now. ${next} Read the item again; if the work was really done, ask a lead to choose the way that it belongs to.`);
}

/** The refusal that tells a tablet where the item is in its work. */
export function wrongStage({ item }: Pick<OrderFacts, 'item'>, text: string): Problem {
  return new Problem('wrong_stage', text, { members: { nextStep: item.nextStep, disposition: item.disposition, stage: item.stage, keeper: item.keeper } });
}
