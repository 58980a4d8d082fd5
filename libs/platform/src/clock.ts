import { readFileSync, statSync } from 'node:fs';

/** Where the time comes from; use cases never read the machine's clock themselves. */
export interface Clock {
  /** Epoch milliseconds, UTC. */
  nowMs(): number;
}

export const systemClock: Clock = { nowMs: () => Date.now() };

/**
 * The clock of the demo day: the driver writes the time of the played day into a file and every process on this
 * machine reads it, so that a day passes in minutes and goes on after a restart. Never used unless configured.
 */
export function fileClock(path: string): Clock {
  let cachedMs = Number.NaN;
  let modifiedMs = -1;
  return {
    nowMs() {
      const changedMs = statSync(path).mtimeMs;
      if (changedMs !== modifiedMs) {
        const read = Number(readFileSync(path, 'utf8').trim());
        if (Number.isFinite(read) && read > 0) {
          cachedMs = read;
          modifiedMs = changedMs;
        }
      }
      if (Number.isNaN(cachedMs)) throw new Error(`The clock file ${path} holds no time.`);
      return cachedMs;
    },
  };
}
