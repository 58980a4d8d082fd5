export * from './claim-words.js';
export * from './judge-claim.js';
export * from './limits.js';
export { UNKNOWN_OWNER_CODE } from './unknown-owner.js';
export { type ClaimAnswers, type ClaimView } from './views.js';
