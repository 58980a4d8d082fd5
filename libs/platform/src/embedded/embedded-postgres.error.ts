/** Why the embedded database could not be had; each code has one remedy, told in the message. */
export type EmbeddedPostgresErrorCode =
  | 'disk_full'
  | 'port_taken'
  | 'foreign_data_dir'
  | 'wrong_major'
  | 'locked'
  | 'binaries_missing'
  | 'start_failed';

/** Refusal or failure of the embedded database; the message says what to do about it. */
export class EmbeddedPostgresError extends Error {
  readonly code: EmbeddedPostgresErrorCode;

  constructor(code: EmbeddedPostgresErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'EmbeddedPostgresError';
    this.code = code;
  }
}

// The wording is that of PostgreSQL 18.4 and of the C library with LC_ALL=C, which the child
// environment forces; each pattern was seen in output of these binaries (tests/faults).
const FAILURE_PATTERNS: readonly (readonly [RegExp, EmbeddedPostgresErrorCode])[] = [
  [/No space left on device|Disk quota exceeded/, 'disk_full'],
  [/could not bind .* address .*: (Address already in use|Permission denied)/, 'port_taken'],
  [/database files are incompatible with server|was initialized by PostgreSQL version/, 'wrong_major'],
  [/lock file ".*" already exists|pre-existing shared memory block .* is still in use/, 'locked'],
  [/error while loading shared libraries|Library not loaded/, 'binaries_missing'],
];

/** Names the cause found in what initdb, postgres or pg_ctl printed; `start_failed` if none is known. */
export function classifyServerFailure(output: string): EmbeddedPostgresErrorCode {
  for (const [pattern, code] of FAILURE_PATTERNS) {
    if (pattern.test(output)) return code;
  }
  return 'start_failed';
}

/**
 * Reads the `code` of a failed system call, such as ENOENT, or null for anything else. By its shape,
 * not by `instanceof`: under Jest the errors of Node's own modules come from another realm.
 */
export function systemErrorCode(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('code' in error)) return null;
  return typeof error.code === 'string' ? error.code : null;
}

/** Gives a failed system call below the state directory its meaning; passes our own errors through. */
export function asEmbeddedPostgresError(error: unknown, dataDir: string): EmbeddedPostgresError {
  if (error instanceof EmbeddedPostgresError) return error;
  const reason = error instanceof Error ? error.message : String(error);
  const code = systemErrorCode(error);
  if (code === 'ENOSPC' || code === 'EDQUOT') return diskFull(dataDir, reason, error);
  if (code === 'EACCES' || code === 'EPERM') {
    return new EmbeddedPostgresError(
      'foreign_data_dir',
      `The data folder ${dataDir} cannot be used by this operating-system user (${reason}). ` +
        'Start as the user who created it, or choose another data folder.',
      { cause: error },
    );
  }
  return new EmbeddedPostgresError('start_failed', `The embedded database failed: ${reason}`, { cause: error });
}

/** The refusal for a full disk: what is stored stays as it was. */
export function diskFull(dataDir: string, reason: string, cause?: unknown): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    'disk_full',
    `There is no room left on the disk that holds ${dataDir}. Free some space (a new database needs ` +
      `about 100 MB) and start again; what is already stored was left as it is. Reported: ${reason}`,
    { cause },
  );
}
