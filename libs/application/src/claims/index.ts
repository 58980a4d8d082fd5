export * from './claim-words.js';
export * from './judge-claim.js';
export * from './judge-unclaimed.js';
export * from './limits.js';
export { FOUND_LAW_CAUTION } from './unclaimed.js';
export { UNKNOWN_OWNER_CODE } from './unknown-owner.js';
export { type ClaimAnswers, type ClaimView } from './views.js';
