export { listPlan, type ListRule } from './list-plan.js';
