export * from './migrations.js';
export * from './roles.js';
