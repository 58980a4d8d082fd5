import type { EmbeddedPostgresError } from './embedded-postgres.error.js';

/** What a caller asks of the embedded database. */
export interface EmbeddedPostgresOptions {
  /** State directory, made when absent; everything the database keeps lives below it. */
  dataDir: string;
  /** Receives one plain sentence per notable step; never a secret. */
  log: (message: string) => void;
  /** Loopback port to insist on, 1-65535. Left out: the stored port, else a free one. */
  port?: number;
}

/** A running embedded database. */
export interface EmbeddedPostgres {
  /** Connection URL of the superuser, for migrations and set-up only. Holds a secret: never log it. */
  adminUrl: string;
  /** Loopback TCP port the server listens on. */
  port: number;
  /** Absolute state directory. */
  dataDir: string;
  /** True when the server was already running: an orphan taken over, or another process's server. */
  adopted: boolean;
  /** True when another live process owns the server: it will stop it, and `stop()` of this handle does nothing. */
  joined: boolean;
  /**
   * Resolves with the reason when the server has ended by itself and cannot be started again: whoever
   * cannot do without it should then end with a failure. Never rejects. Stays pending as long as the
   * server is kept running, after `stop()`, and for a handle that merely joined.
   */
  lost: Promise<EmbeddedPostgresError>;
  /**
   * Ends the server if this handle owns it, and may be called again. A handle that merely joined
   * the server of another live process leaves it running.
   */
  stop(): Promise<void>;
  /** Connection URL for another role and database of this server; the parts are escaped. */
  urlFor(role: string, password: string, database: string): string;
}
