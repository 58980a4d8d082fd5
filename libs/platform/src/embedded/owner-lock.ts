import { randomBytes } from 'node:crypto';
import { readdir, readFile, rm, truncate } from 'node:fs/promises';
import { join } from 'node:path';

import { createFileOnce } from './atomic-file.js';
import { systemErrorCode } from './embedded-postgres.error.js';
import { judgeProcess, ownIdentity } from './process-identity.js';
import type { ProcessIdentity } from './process-identity.js';

/*
 * One supervisor per state directory. A lock file that is deleted and made anew cannot be taken over
 * from a killed process without a race, so ours are numbered and the highest number counts:
 *   - a claim creates owner.<n+1> (fails if it exists), only if the holder of <n> is dead or has let go;
 *   - the claim holds if its number is still the highest afterwards;
 *   - letting go empties the file, which needs no disk space, and the name stays, so numbers only grow;
 *   - the holder deletes lower numbers, nobody deletes the highest.
 */

/** Result of asking for the ownership of a state directory. */
export type Claim =
  | { kind: 'owned'; lock: OwnerLock }
  | { kind: 'held'; by: ProcessIdentity; elsewhere: boolean; path: string };

/** The ownership of a state directory by this handle. */
export interface OwnerLock {
  release(): Promise<void>;
}

interface Holder extends ProcessIdentity {
  token: string;
}

/** Takes the ownership if it is free or its holder is dead; otherwise tells who holds it. */
export async function claimOwnership(lockDir: string): Promise<Claim> {
  for (;;) {
    const numbers = await listNumbers(lockDir);
    const highest = numbers.at(-1) ?? 0;
    const holder = highest === 0 ? null : await readHolder(lockPath(lockDir, highest));
    if (holder !== null) {
      const liveness = await judgeProcess(holder);
      if (liveness !== 'dead') {
        return { kind: 'held', by: holder, elsewhere: liveness === 'elsewhere', path: lockPath(lockDir, highest) };
      }
    }
    const lock = await tryNumber(lockDir, highest + 1);
    if (lock !== null) return { kind: 'owned', lock };
  }
}

async function tryNumber(lockDir: string, number: number): Promise<OwnerLock | null> {
  const path = lockPath(lockDir, number);
  const token = randomBytes(16).toString('hex');
  const holder: Holder = { ...(await ownIdentity()), token };
  if (!(await createFileOnce(path, JSON.stringify(holder)))) return null;
  const numbers = await listNumbers(lockDir);
  if (numbers.at(-1) !== number) {
    // Our listing was old: someone had come and gone, and a higher number rules.
    await rm(path, { force: true });
    return null;
  }
  for (const lower of numbers.filter((found) => found < number)) {
    await rm(lockPath(lockDir, lower), { force: true });
  }
  return { release: () => release(path, token) };
}

async function release(path: string, token: string): Promise<void> {
  const holder = await readHolder(path);
  if (holder?.token === token) await truncate(path, 0);
}

function lockPath(lockDir: string, number: number): string {
  return join(lockDir, `owner.${number}`);
}

async function listNumbers(lockDir: string): Promise<number[]> {
  const names = await readdir(lockDir);
  const numbers = names.flatMap((name) => {
    const match = /^owner\.([1-9]\d*)$/.exec(name);
    return match ? [Number(match[1])] : [];
  });
  return numbers.sort((a, b) => a - b);
}

/** Null for a lock that was let go (empty), is damaged, or has been deleted by a later holder. */
async function readHolder(path: string): Promise<Holder | null> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (error) {
    if (systemErrorCode(error) === 'ENOENT') return null;
    throw error;
  }
  try {
    const parsed: unknown = JSON.parse(text);
    return isHolder(parsed) ? parsed : null;
  } catch {
    // Written whole before it got its name: if not empty, a damaged disk after a crash, so nobody lives.
    return null;
  }
}

function isHolder(value: unknown): value is Holder {
  if (typeof value !== 'object' || value === null) return false;
  const texts: readonly (keyof Holder)[] = ['startedAt', 'hostname', 'bootId', 'pidNamespace', 'token'];
  const fields = new Map<string, unknown>(Object.entries(value));
  return typeof fields.get('pid') === 'number' && texts.every((name) => typeof fields.get(name) === 'string');
}
