export * from './types.js';
export { buildPlan, type PlanBudget } from './build-plan.js';
export { bindingResources, type BindingResources, type ResourceUse, type UnplannedBy, type UsePeriod } from './binding-resources.js';
export { describeBlocker, resourceInWords } from './blocker-words.js';
export { explainItem, type ItemExplanation, type PassedOver, type StepExplanation } from './explain.js';
export { checkProblem, MalformedPlanProblem, type ProblemFault } from './problem-check.js';
export { validatePlan } from './validate-plan.js';
export * from './search/index.js';
