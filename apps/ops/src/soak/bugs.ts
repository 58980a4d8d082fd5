import { join } from 'node:path';
import pg from 'pg';
import { projectRoot } from '#platform';
import type { FaultKind } from './faults.js';

/**
 * Faults that are put into the service of a run on purpose, to see that the checker names them: by SQL in that run's own database,
 * and by a start module of the tests that replaces one method before it starts the API. Nothing of the product knows of them.
 */
export interface SeededBug {
  /** What the start module of the tests is to replace; null where the API runs as it is. */
  patch: string | null;
  /** Changes to the run's own database and cluster, made by its owner before anything runs. */
  sql: () => string[];
  /** Faults that show it: a narrow window needs the fault that falls into it. Null: all of them. */
  faults: readonly FaultKind[] | null;
}

export const BUGS = {
  /** Every attempt is a new command. */
  'no-idempotency-record': { patch: 'no-idempotency-record', sql: () => [], faults: null },
  /** Neither lock nor comparison guards the end of the chain; the keys that would still stop it are gone. */
  'no-compare-and-set': {
    patch: 'no-compare-and-set',
    sql: () => ['alter table custody_event drop constraint custody_event_pkey cascade', 'alter table custody_root_waiting drop constraint custody_root_waiting_pkey', 'alter table custody_words drop constraint custody_words_pkey'],
    faults: null,
  },
  /** The answer goes out when the work is done, and the transaction ends a moment later. */
  'answer-before-commit': { patch: 'answer-before-commit', sql: () => [], faults: ['cut', 'kill'] },
  /** Commits are answered before they are on the disk. Of the workers too, whose commits would otherwise bring those of the API there with them. */
  'commit-not-durable': { patch: null, sql: () => ['wl_app', 'wl_relay', 'wl_queue'].map((role) => `alter role ${role} set synchronous_commit = off`), faults: ['stop'] },
} as const satisfies Record<string, SeededBug>;
export type BugName = keyof typeof BUGS;

export function isBug(name: string): name is BugName {
  return Object.hasOwn(BUGS, name);
}

/** The program that runs as the API. */
export function apiScript(bug: BugName | null): { script: string; env: NodeJS.ProcessEnv } {
  const patch = bug === null ? null : BUGS[bug].patch;
  if (patch === null) return { script: join(projectRoot(), 'dist', 'apps', 'api', 'src', 'main.js'), env: {} };
  return { script: join(projectRoot(), 'tests', 'faults', 'custody-history.api.mjs'), env: { WRACKLINE_TEST_BUG: patch } };
}

export async function seedBug(ownerUrl: string, bug: BugName | null): Promise<void> {
  if (bug === null) return;
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    for (const sql of BUGS[bug].sql()) await client.query(sql);
  } finally {
    await client.end();
  }
}
