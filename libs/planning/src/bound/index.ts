export { type BoundName, type BoundOptions, type SavedWeightBound, savedWeightBound } from './saved-weight-bound.js';
export type { BoundPrices } from './price-bound.js';
