import { mkdir, open, readFile, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { FileVault } from '#application';

const NAME = /^[0-9a-f]{64}$/;

/**
 * Bytes in a folder of this machine, which only its user may enter. Every API and worker process of an installation must see the same folder; on
 * several machines use a store that speaks S3, or a folder that they share.
 */
export class LocalVault implements FileVault {
  readonly place: string;

  constructor(private readonly folder: string) {
    this.place = `folder ${folder}`;
  }

  async put(name: string, bytes: Uint8Array): Promise<void> {
    const path = this.pathOf(name);
    await this.ensureFolder(dirname(path));
    const draft = draftOf(path);
    try {
      const file = await open(draft, 'w', 0o600);
      try {
        await file.writeFile(bytes);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(draft, path);
      await syncFolder(dirname(path));
    } finally {
      await rm(draft, { force: true });
    }
  }

  async get(name: string): Promise<Uint8Array | null> {
    return readFile(this.pathOf(name)).catch(absent);
  }

  async stat(name: string): Promise<{ bytes: number } | null> {
    const found = await stat(this.pathOf(name)).catch(absent);
    return found === null ? null : { bytes: found.size };
  }

  async delete(name: string): Promise<void> {
    const path = this.pathOf(name);
    await rm(path, { force: true });
    await rm(draftOf(path), { force: true });
    await syncFolder(dirname(path)).catch(absent);
  }

  /** Two hundred and fifty-six folders, so that none gets too large. Refuses anything but a name of ours, so none leads out of the folder. */
  private pathOf(name: string): string {
    if (!NAME.test(name)) throw new Error('not the name of an object');
    return join(this.folder, name.slice(0, 2), name);
  }

  private async ensureFolder(path: string): Promise<void> {
    const made = await mkdir(path, { recursive: true, mode: 0o700 });
    if (made === undefined) return;
    // A new folder is durable when the one above it is.
    for (let above = path; above !== dirname(made); ) {
      above = dirname(above);
      await syncFolder(above);
    }
  }
}

/** Where the bytes are until they are whole. One for each name, which is put once: what a killed run has left there goes with the name. */
function draftOf(path: string): string {
  return `${path}.new`;
}

async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

function absent(error: NodeJS.ErrnoException): null {
  if (error.code === 'ENOENT') return null;
  throw error;
}
