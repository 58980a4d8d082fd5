import { DEFAULT_CALIBRATION, RULE_BOOK, type CareStep, type Disposition, type DispositionOption, type StepKind, type TriageOutcome } from '#care';
import type { Stage } from '#custody';

/** The option to follow: the chosen one if the rule book still offers it, else the first that nothing is missing for, else the first. */
export function chooseOption(result: TriageOutcome, chosen: Disposition | null): DispositionOption {
  const option = result.options.find((candidate) => candidate.disposition === chosen) ?? result.options.find((candidate) => candidate.needs.length === 0) ?? result.options[0];
  if (!option) throw new Error('triage answered no option');
  return option;
}

export interface NextStep {
  care: CareStep;
  /** Place of the step in the route. */
  position: number;
}

/** The first step of a route that is not settled yet; null when the route is at its end. */
export function nextInRoute(option: DispositionOption, settled: ReadonlySet<StepKind>): NextStep | null {
  const position = option.steps.findIndex((care) => !settled.has(care.step));
  const care = option.steps[position];
  return care === undefined ? null : { care, position };
}

/** The next step of a thing in the stage it is in: nothing for what is away, and a thaw before anything else can be done to what is frozen. */
export function nextStepOf(stage: Stage, option: DispositionOption, settled: ReadonlySet<StepKind>): NextStep | null {
  if (stage === 'referred-out') return null;
  if (stage === 'held-frozen' && option.disposition !== 'hold-frozen') return { care: thawBefore(option), position: 0 };
  return nextInRoute(option, settled);
}

/**
 * What the rule book says of the step itself, of whatever thing: a cold bath is for textiles alone and must not be read beside a
 * frozen book. To unfold nothing before it has thawed is said of textiles and harms nothing else.
 */
const THAW_CAUTIONS = RULE_BOOK.filter(({ id, families }) => id === 'freezing.thaw' || (id.startsWith('freezing.thaw.') && families === undefined)).flatMap(({ id, concludes }) =>
  concludes.flatMap((conclusion) => (conclusion.kind === 'caution' && conclusion.steps?.includes('thaw') ? [{ ruleId: id, text: conclusion.text }] : [])),
);

/** What a thaw takes over from a step; the planner's steps carry no equipment. */
type StepInItsZone = Pick<CareStep, 'zone' | 'barredRestrictions'> & Partial<Pick<CareStep, 'ppe'>>;

/**
 * The thaw before a way. No route of the rule book holds it, for it stands between two rounds of work; minutes and crew are own
 * calibration. What thaws is as wet, as dirty and as mouldy as it was: whoever touches it wears what the dirty steps of the way ask for.
 */
export function thawBefore(option: { steps: readonly StepInItsZone[] }): CareStep {
  const dirty = option.steps.filter(({ zone }) => zone === 'dirty' || zone === 'quarantine');
  const { minutes, crew } = DEFAULT_CALIBRATION.handlingDefault.thaw;
  return {
    step: 'thaw', zone: 'cold', minutesPerPiece: minutes, crew, skill: 'freezer-wrapping', stabilises: false, cautions: THAW_CAUTIONS,
    ppe: [...new Set(dirty.flatMap(({ ppe }) => ppe ?? []))],
    barredRestrictions: [...new Set(dirty.flatMap(({ barredRestrictions }) => barredRestrictions))],
  };
}
