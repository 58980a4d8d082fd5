/** Injection tokens of the composition; see `app.module.ts`. */
export const UNIT_OF_WORK = Symbol('UnitOfWork');
export const CONFIG_WORK = Symbol('ConfigWork');
export const CLOCK = Symbol('Clock');
export const POOL = Symbol('Pool');
export const LOGGER = Symbol('Logger');
export const SETTINGS = Symbol('ApiSettings');

export interface ApiSettings {
  /** Signs page cursors. */
  cursorSecret: string;
  ratePerMinute: number;
  redisUrl: string | null;
  version: string;
}
