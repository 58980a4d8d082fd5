export * from './erase-household.js';
export * from './held-data.js';
export * from './legal-holds.js';
export * from './retention.js';
export * from './retention-preview.js';
export * from './retention-schedule.js';
export * from './run-retention.js';
export { giveUpRetentionLook, runRetentionLook, type RetentionLookOutcome } from './run-retention-look.js';
export * from './seal-existing.js';
