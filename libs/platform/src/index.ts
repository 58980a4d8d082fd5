export * from './api-key.js';
export * from './clock.js';
export * from './config.js';
export * from './embedded/index.js';
export * from './ids.js';
export * from './logging.js';
export * from './trace.js';
