import { DEFAULT_CALIBRATION, findRule, type CareStep, type Disposition, type DispositionOption, type StepKind, type TriageOutcome } from '#care';
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
  if (stage === 'held-frozen' && option.disposition !== 'hold-frozen') return { care: THAW, position: 0 };
  return nextInRoute(option, settled);
}

/** No route of the rule book holds the thaw: it stands between two rounds of work. Minutes and crew are own calibration. */
export const THAW: CareStep = {
  step: 'thaw', zone: 'cold', minutesPerPiece: DEFAULT_CALIBRATION.handlingDefault.thaw.minutes, crew: DEFAULT_CALIBRATION.handlingDefault.thaw.crew,
  skill: 'freezer-wrapping', barredRestrictions: [], ppe: [], stabilises: false,
  cautions: (findRule('freezing.thaw')?.concludes ?? []).flatMap((conclusion) => (conclusion.kind === 'caution' ? [{ ruleId: 'freezing.thaw', text: conclusion.text }] : [])),
};
