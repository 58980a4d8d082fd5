export * from './migrate/index.js';
export * from './pg-unit-of-work.js';
export * from './pool.js';
export * from './relay/index.js';
export * from './tenancy-check.js';
export * from './prisma/prisma-config-work.js';
