// Apart from the servers of tests, because it loads the planner and the custody library, which most tests of the API do without.
export * from './salvage/index.js';
export * from './list-plans/index.js';
export * from './history-checker.js';
