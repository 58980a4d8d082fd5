/** How often a household may say that a found thing is theirs; each claim is one try at its questions. */
export interface ClaimLimits {
  /** Claims of one household on one thing, ever. */
  perThing: number;
  /** Claims of one household on all things within 24 hours. */
  perDay: number;
}

/**
 * Our own calibration (WRACKLINE_CLAIMS_PER_THING, WRACKLINE_CLAIMS_PER_DAY): a family that was upset or unsure may come back twice, and one that lost
 * a whole house may find several of its things in a day; who has to guess is stopped early.
 */
export const CLAIM_LIMITS: ClaimLimits = { perThing: 3, perDay: 10 };
export const DAY_OF_TRIES_MS = 24 * 3_600_000;
