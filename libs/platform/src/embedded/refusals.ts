import { EmbeddedPostgresError } from './embedded-postgres.error.js';
import type { Claim } from './owner-lock.js';
import type { StateDir } from './state-dir.js';

/** The ownership of a state directory is with somebody else. */
export type HeldClaim = Extract<Claim, { kind: 'held' }>;

/** The refusal for a port that cannot be listened on. */
export function portTaken(port: number): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    'port_taken',
    `Port ${port} is used by another program or needs privileges. Choose another port, or leave the ` +
      'setting out and a free one is found.',
  );
}

/** The refusal for a cluster and a password file that do not belong together. */
export function passwordRefused(dir: StateDir): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    'foreign_data_dir',
    `The database in ${dir.root} refuses the superuser password kept in ${dir.secretsDir}. ` +
      'Put the password file back that belongs to this database.',
  );
}

/** The refusal for a state directory that another live process, here or on another machine, owns. */
export function heldByOther(dir: StateDir, claim: HeldClaim): EmbeddedPostgresError {
  const { pid, hostname } = claim.by;
  return new EmbeddedPostgresError(
    'locked',
    claim.elsewhere
      ? `The data folder ${dir.root} is in use by process ${pid} on the machine "${hostname}". Two machines must ` +
        `never use one data folder. Stop it there; if that machine is gone for good, delete ${claim.path}.`
      : `The data folder ${dir.root} is in use by process ${pid}. Stop that process first.`,
  );
}

/** The refusal to join a server that listens on another port than the caller insists on. */
export function joinedPortDiffers(dir: StateDir, claim: HeldClaim, actual: number, asked: number): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    'locked',
    `The database in ${dir.root} already runs on port ${actual} for process ${claim.by.pid}. ` +
      `Stop that process first, or do not ask for port ${asked}.`,
  );
}
