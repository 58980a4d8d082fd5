export * from './types.js';
export { bathsTaken, CLOSENESSES, COMPANY_RULES, companyFaults, companyKeyOf, keptApartBy, outerWall, WALL_OF_CONTAINER, WALLS, type Bather, type Closeness, type Companion, type CompanyFault, type CompanyRule, type Wall } from './company.js';
export { DEFAULT_CALIBRATION } from './calibration.js';
export type { CareCalibration, ClockHours, ClockName, Handling } from './calibration.js';
export { FAMILIES, MATERIALS } from './materials.js';
export type { Family, MaterialTraits, SizeKey } from './materials.js';
export {
  BookChoiceError, bookOf, buildBook, CHOICES, choicesOf, compareReleases, DEFAULT_BOOK, findRule, NEWEST_RELEASE, RELEASE_CHANGE_KINDS, RELEASE_SUMMARIES, releaseBefore, releaseChanges, RELEASES, REWORDED, RULE_BOOK, RULE_BOOK_VERSION,
} from './rule-book/index.js';
export type {
  Book, Choice, ChoiceId, ChoiceOption, Chosen, Conclusion, Observation, ReleaseChangeKind, ReleaseChanges, ReleaseName, Rule, RuleOfRelease, Scope, SideOfRelease,
} from './rule-book/index.js';
export { deriveFacts, dyeState, partsOf, waterAfterHours } from './facts.js';
export type { DyeState, Facts, MouldFact } from './facts.js';
export { STANDING, triage, triageOutcome } from './triage.js';
export type { TriageOutcome } from './triage.js';
export { nextDeadlineAtMs } from './clocks.js';
export { askNext } from './ask-next.js';
export { compareUrgency, explainOrder, IRREVERSIBILITY, ORDER_CRITERIA, orderDecision, orderedItem } from './order.js';
export type { OrderCriterion, OrderDecision, OrderedItem } from './order.js';
export { changesBetween, compareBooks, COMPARED, differencesBetween } from './compare.js';
export type { BookComparison, BookDifference, Compared, Difference, RuleChange, Told, TriageChange } from './compare.js';
export { CONTRADICTION_CODES, contradictionsIn } from './contradictions.js';
export type { Contradiction, ContradictionCode } from './contradictions.js';
export { homeCare } from './home-care.js';
export type { ComingHome, HomeAdvice, HomeCare } from './home-care.js';
export { planningWeight } from './weight.js';
export { afterStepResult, STEP_OUTCOMES } from './after-step.js';
export type { EndedStep, StepOutcome } from './after-step.js';
export { calibratePeople, DEFAULT_PEOPLE_CALIBRATION, PEOPLE_CALIBRATION, PeopleCalibrationError } from './people-calibration.js';
export type { PeopleCalibration, PeopleCalibrationEntry, PeopleCalibrationKey } from './people-calibration.js';
export { barredFrom, hoursSinceRest, mayDo, needsRespiratorFit, shiftsWithinHours, SUITABILITY_CODES } from './people.js';
export type { HeatLimit, LiftLimit, StepAtHand, Suitability, SuitabilityCode, SuitabilityReason, WorkConditions, Worker } from './people.js';
export { breathingProtectionOf, BREATHING_PROTECTION, clothingOf, effortOf, EFFORTS, isLifted, WORK_CLOTHING } from './protection.js';
export type { BreathingProtection, Effort, WorkClothing } from './protection.js';
export * from './messages/index.js';
