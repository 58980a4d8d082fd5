export * from './dossier.js';
export * from './hand-back-paper.js';
export * from './referral-package.js';
export * from './referral-pictures.js';
