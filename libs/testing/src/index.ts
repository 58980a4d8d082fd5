export * from './database.js';
export * from './incident.js';
export * from './server.js';
export * from './world.js';
export * from './rows.js';
export * from './arrivals.js';
