/** Sentences that released versions said and that no longer stand in the code: stored results still say them. None yet. */
export const RETIRED: Readonly<Record<string, string>> = {};
