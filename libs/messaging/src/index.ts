export * from './doorbell.js';
export * from './handlers.js';
export * from './job-runner.js';
export * from './outbox-upkeep.js';
export * from './queue-backend.js';
export * from './queue-unreachable.error.js';
export * from './relay-loop.js';
export * from './tuning.js';
