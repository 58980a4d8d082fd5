/** Orders in which the search offers items again; the search draws one for each round and shuffles it. */
import { type CompiledItem, rejectionKey, windowOf } from './compile.js';
import type { Dice } from './search/dice.js';

type OfferKey = (item: CompiledItem) => number;

const byWindow: OfferKey = (item) => Math.max(1, item.deadline - item.release);
const asItComes: OfferKey = () => 1;
const USUAL: readonly OfferKey[] = [
  (item) => rejectionKey(windowOf(item), item.share, item.weight),
  (item) => item.share / item.weight,
  (item) => 1 / item.weight,
  byWindow,
];
/** Prices say already who is worth a place, so only who has little time, and chance, count: our own calibration. */
const BY_PRICE: readonly OfferKey[] = [byWindow, byWindow, asItComes];

/** One of the keys by chance, smaller first; what weighs nothing comes last. */
export function offerKey(dice: Dice, priced: boolean): OfferKey {
  const keys = priced ? BY_PRICE : USUAL;
  const key = keys[dice.below(keys.length)]!;
  return (item) => (item.weight === 0 ? Number.POSITIVE_INFINITY : key(item));
}
