export * from './pg-outbox-relay.js';
export * from './relay-check.js';
