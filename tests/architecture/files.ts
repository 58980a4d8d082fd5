import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '#platform';

export const root = projectRoot();

/** Files of the project: those in git, and new ones that git does not ignore. Paths from the root. */
export function projectFiles(): string[] {
  const listed = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', '-z'], { cwd: root, encoding: 'utf8', maxBuffer: 32 * 1_048_576 });
  return listed.split('\0').filter((path) => path !== '' && existsSync(join(root, path)));
}

export function read(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}

export function readJson<T>(path: string): T {
  return JSON.parse(read(path)) as T;
}

/** Names of the folders in a folder. */
export function foldersIn(path: string): string[] {
  return readdirSync(join(root, path), { withFileTypes: true }).filter((entry) => entry.isDirectory()).map((entry) => entry.name).sort();
}
