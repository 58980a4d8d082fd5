export * from './build-problem.js';
export * from './drying-outlook.js';
export * from './plan-summary.js';
export * from './room-change.js';
export * from './run-plan.js';
