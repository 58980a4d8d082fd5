import type { ClaimLimits, FileLimits } from '#application';

/** Injection tokens of the composition; see `app.module.ts`. */
export const UNIT_OF_WORK = Symbol('UnitOfWork');
export const CONFIG_WORK = Symbol('ConfigWork');
export const CLOCK = Symbol('Clock');
export const POOL = Symbol('Pool');
export const LOGGER = Symbol('Logger');
export const SETTINGS = Symbol('ApiSettings');
export const ACCEPTANCE = Symbol('AcceptanceReckoner');
export const PLANS = Symbol('PlanReckoner');
export const DOCUMENTS = Symbol('DocumentThreads');
export const VAULT = Symbol('FileVault');

export interface ApiSettings {
  /** Signs page cursors. */
  cursorSecret: string;
  ratePerMinute: number;
  redisUrl: string | null;
  /** Real time that a reckoning of air waits for company; the default of the use cases when left out. */
  climateGatherMs?: number;
  /** Sizes and times of files; the defaults of the use cases when left out. */
  files?: Partial<FileLimits>;
  /** How often a household may claim found things; the defaults of the use cases when left out. */
  claims?: Partial<ClaimLimits>;
  /** Look-ups of households by name or number of one key within a minute; 30 when left out. */
  lookUpsPerMinute?: number;
  /** Minutes for which a link to a file leads to it; 10 when left out. */
  linkMinutes?: number;
  version: string;
}
