export { startEmbeddedPostgres, stopOrphan } from './embedded-postgres.js';
export type { EmbeddedPostgres, EmbeddedPostgresOptions } from './embedded-postgres.types.js';
export { classifyServerFailure, EmbeddedPostgresError } from './embedded-postgres.error.js';
export type { EmbeddedPostgresErrorCode } from './embedded-postgres.error.js';
export { freePort } from './free-port.js';
