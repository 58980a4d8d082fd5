import { randomBytes } from 'node:crypto';
import { link, open, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';

import { systemErrorCode } from './embedded-postgres.error.js';

const OWNER_ONLY_MODE = 0o600;

/** Replaces a file, mode 0600, so that a crash or a full disk leaves the old or the new content, never half. */
export async function replaceFile(path: string, content: string): Promise<void> {
  await withDurableDraft(path, content, (draft) => rename(draft, path));
}

/** Creates a file, mode 0600, with its whole content at once; answers false if the name is taken. */
export async function createFileOnce(path: string, content: string): Promise<boolean> {
  try {
    // A hard link fails if the name exists, on any POSIX file system: the test-and-set we need.
    await withDurableDraft(path, content, (draft) => link(draft, path));
    return true;
  } catch (error) {
    if (systemErrorCode(error) === 'EEXIST') return false;
    throw error;
  }
}

/** Makes the names in a folder durable, as fsync(2) of a file alone does not. */
export async function syncDir(path: string): Promise<void> {
  const dir = await open(path, 'r');
  try {
    await dir.sync();
  } finally {
    await dir.close();
  }
}

async function withDurableDraft(
  path: string,
  content: string,
  place: (draft: string) => Promise<void>,
): Promise<void> {
  const draft = `${path}.${randomBytes(6).toString('hex')}.tmp`;
  try {
    const file = await open(draft, 'wx', OWNER_ONLY_MODE);
    try {
      await file.writeFile(content);
      await file.sync();
    } finally {
      await file.close();
    }
    await place(draft);
    await syncDir(dirname(path));
  } finally {
    await rm(draft, { force: true });
  }
}
