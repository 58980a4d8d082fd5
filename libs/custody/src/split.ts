/**
 * Splitting a counted lot: how many pieces go into the part, and what of the lot's area, volume and mass goes with them.
 * Our own design; the custody events that record it are `lot-split` and `split-off`.
 */

/** What a counted lot amounts to. Whole units, so that sums stay exact: dm2 of drying area, litres of freezer, grams of dry mass. */
export interface LotExtent {
  count: number;
  areaDm2: number;
  volumeL: number;
  dryMassG: number;
}

/** Why so many pieces cannot be taken out. */
export interface CountFault {
  fault: 'not_whole' | 'takes_all';
  /** One sentence that helps. */
  text: string;
}

/** Tells a fault from the two parts. */
export function isCountFault(outcome: { part: LotExtent; rest: LotExtent } | CountFault): outcome is CountFault {
  return 'fault' in outcome;
}

/**
 * Takes pieces out of a lot: area, volume and mass are shared by count, rounded to whole units, and what rounding gives to
 * the one it takes from the other, so that both always add up to what the lot was.
 * @param lot the lot as it is; whole numbers of 0 or more, count at least 1.
 * @param pieces pieces of the part, a whole number from 1 to one less than the lot counts.
 * @returns both extents, or why not. Either may come to 0 of a unit of which the lot has hardly any: two prints share one litre.
 */
export function splitExtent(lot: LotExtent, pieces: number): { part: LotExtent; rest: LotExtent } | CountFault {
  if (!Number.isSafeInteger(pieces) || pieces < 1) return { fault: 'not_whole', text: 'Pieces are counted: take out a whole number of 1 or more.' };
  if (pieces >= lot.count) {
    const most = lot.count - 1;
    return { fault: 'takes_all', text: most < 1 ? 'The lot counts one piece; there is nothing to take out of it.' : `The lot counts ${lot.count} pieces, so at most ${most} can be taken out of it; one stays at least. Count again, or move the whole lot.` };
  }
  const share = (total: number): number => shareOf(total, pieces, lot.count);
  const part: LotExtent = { count: pieces, areaDm2: share(lot.areaDm2), volumeL: share(lot.volumeL), dryMassG: share(lot.dryMassG) };
  return { part, rest: { count: lot.count - pieces, areaDm2: lot.areaDm2 - part.areaDm2, volumeL: lot.volumeL - part.volumeL, dryMassG: lot.dryMassG - part.dryMassG } };
}

/** The share of `pieces` of `count` in whole units, half a unit upwards; none is left without any as long as there are two. */
function shareOf(total: number, pieces: number, count: number): number {
  // Whole numbers below 2^31 times at most 100,000 pieces stay exact.
  const rounded = Math.floor((2 * total * pieces + count) / (2 * count));
  return total < 2 ? Math.min(total, rounded) : Math.min(total - 1, Math.max(1, rounded));
}
