// The way in on a fresh clone: installs what is missing, builds what changed, then runs `apps/ops`.
// Plain JavaScript without dependencies, because nothing may be installed yet.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Wrackline needs Node 20.19 or newer; this is ${process.versions.node}.`);
  process.exit(1);
}

const marker = join(root, 'node_modules', '.package-lock.json');
const lock = join(root, 'package-lock.json');
if (!existsSync(marker) || statSync(marker).mtimeMs < statSync(lock).mtimeMs) {
  console.log('Installing packages (once, a minute or two) ...');
  const installed = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' });
  if (installed.status !== 0) process.exit(installed.status ?? 1);
}

const { build } = await import('./build.mjs');
build();
await import('../../dist/apps/ops/src/main.js');
