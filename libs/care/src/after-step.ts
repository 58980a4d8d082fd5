import type { Assessment, Consents, Disposition, MouldState, StepKind, WetState } from './types.js';

/** How a step ended, as a station lead taps it. */
export const STEP_OUTCOMES = ['done', 'failed', 'dye-moved', 'mould-found', 'owner-must-decide'] as const;
export type StepOutcome = (typeof STEP_OUTCOMES)[number];

/** The step that ended, and the disposition on whose route it stood. */
export interface EndedStep {
  step: StepKind;
  disposition: Disposition;
}

const CONSENT_OF: Readonly<Record<Disposition, keyof Consents>> = { treat: 'treat', 'hold-frozen': 'freeze', 'hold-wet': 'treat', refer: 'refer', release: 'release' };

function wetStateAfter(step: StepKind, before: WetState): WetState {
  switch (step) {
    case 'rinse':
      return 'dripping';
    case 'blot':
      return before === 'dry' ? 'dry' : 'damp';
    case 'thaw':
      return 'wet';
    case 'check':
      // Drying is laid out at 'dry' and confirmed at 'check'.
      return 'dry';
    default:
      return before;
  }
}

/** Mould is only brushed off once it is dry, so what may remain after the cleaning is inactive. */
function mouldAfter(step: StepKind, before: MouldState): MouldState {
  return step === 'surface-clean' && (before === 'active' || before === 'suspected') ? 'dry' : before;
}

/**
 * The assessment as it stands after a step, for another triage; the input is not changed. A step that `failed`
 * teaches nothing about the thing by itself, so the assessment stays as it was.
 */
export function afterStepResult(assessment: Assessment, result: { outcome: StepOutcome }, ended: EndedStep): Assessment {
  switch (result.outcome) {
    case 'dye-moved':
      return { ...assessment, alreadyBled: true };
    case 'mould-found':
      return { ...assessment, mould: 'active' };
    case 'owner-must-decide':
      return { ...assessment, consents: { ...assessment.consents, [CONSENT_OF[ended.disposition]]: null } };
    case 'done':
      return { ...assessment, wetState: wetStateAfter(ended.step, assessment.wetState), mould: mouldAfter(ended.step, assessment.mould) };
    default:
      return { ...assessment };
  }
}
