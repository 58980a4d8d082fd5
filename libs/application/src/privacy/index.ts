export * from './erase-household.js';
export * from './held-data.js';
export * from './legal-holds.js';
export * from './seal-existing.js';
