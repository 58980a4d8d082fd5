import { setTimeout as sleep } from 'node:timers/promises';

import { asEmbeddedPostgresError, EmbeddedPostgresError } from './embedded-postgres.error.js';

// All of it is our own calibration: a server that was merely killed comes back at the first try, and
// one that cannot run is given up within a minute, so that its operator is told.
const TRIES = 4;
const FIRST_PAUSE_MS = 500;
/** After this time without an end an earlier one no longer counts. */
const STABLE_MS = 10 * 60_000;

/** A server that runs. */
export interface ServerRun {
  /** Resolves with how it ended, in words. */
  ended: Promise<string>;
}

/** What there is to keep running. */
export interface KeepParts {
  first: ServerRun;
  startAgain: () => Promise<ServerRun>;
  /** State directory, for the messages. */
  where: string;
  log: (message: string) => void;
}

/** The watch over a server. */
export interface KeptServer {
  /** Resolves with why the server is down for good. */
  lost: Promise<EmbeddedPostgresError>;
  /** Ends the watch, before the server is stopped on purpose; resolves when no start is under way any more. */
  end(): Promise<void>;
}

/**
 * Starts a server again when it ends by itself, with pauses of 0.5, 1, 2 and 4 s, and gives up after
 * four tries in a row; a start after which it ends again within ten minutes counts as one of them.
 */
export function keepRunning({ first, startAgain, where, log }: KeepParts): KeptServer {
  const ending = new AbortController();
  const { signal } = ending;
  let starting: Promise<void> = Promise.resolve();
  let tries = 0;

  /** The server as it runs again, why it does not, or null when the watch was ended meanwhile. */
  async function bringBack(): Promise<ServerRun | EmbeddedPostgresError | null> {
    let reason = 'It ended again each time.';
    while (tries < TRIES) {
      await sleep(FIRST_PAUSE_MS * 2 ** tries, undefined, { signal }).catch(() => undefined);
      if (signal.aborted) return null;
      tries += 1;
      try {
        return await startAgain();
      } catch (error) {
        reason = asEmbeddedPostgresError(error, where).message;
        log(`PostgreSQL could not be started again (try ${tries} of ${TRIES}): ${reason}`);
      }
    }
    return signal.aborted ? null : givenUp(where, reason);
  }

  async function watch(): Promise<EmbeddedPostgresError | null> {
    let run = first;
    for (;;) {
      const sinceMs = Date.now();
      const how = await run.ended;
      if (signal.aborted) return null;
      if (Date.now() - sinceMs >= STABLE_MS) tries = 0;
      log(`PostgreSQL ended by itself (${how}); it is started again. No committed data is lost.`);
      const back = bringBack();
      starting = back.then(() => undefined);
      const next = await back;
      if (next === null || next instanceof EmbeddedPostgresError) return next;
      run = next;
    }
  }

  return {
    lost: new Promise((resolve) => {
      void watch().then((error) => {
        if (error !== null) resolve(error);
      });
    }),
    async end() {
      ending.abort();
      await starting;
    },
  };
}

function givenUp(where: string, reason: string): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    'start_failed',
    `The database in ${where} ended by itself and could not be kept running in ${TRIES} tries. ` +
      `What was committed is on disk; put right what is told here and start again. ${reason}`,
  );
}
