// Compiles apps/ and libs/, and the planning benchmark of tests/, to dist/ with swc, file by file, only what changed. Types are checked by `npm run check:types`.
import { existsSync, mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { transformFileSync } from '@swc/core';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const dist = join(root, 'dist');
/** `npm run bench:planning` runs from dist/ like everything that is timed; its spec files are Jest's. */
const FOLDERS = ['apps', 'libs', 'tests/planning-benchmarks', 'tests/reference/planning'];
const options = {
  jsc: { parser: { syntax: 'typescript', decorators: true }, transform: { legacyDecorator: true, decoratorMetadata: true }, keepClassNames: true, target: 'es2022' },
  module: { type: 'es6' },
  sourceMaps: 'inline',
  configFile: false,
  swcrc: false,
};

function sources(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sources(path);
    return entry.name.endsWith('.ts') && !/\.(d|spec)\.ts$/.test(entry.name) ? [path] : [];
  });
}

function isFresh(source, target) {
  return existsSync(target) && statSync(target).mtimeMs >= statSync(source).mtimeMs;
}

/** Compiles and answers how many files were written. */
export function build() {
  const wanted = new Set();
  let written = 0;
  for (const source of FOLDERS.flatMap((name) => sources(join(root, name)))) {
    const target = join(dist, relative(root, source)).replace(/\.ts$/, '.js');
    wanted.add(target);
    if (isFresh(source, target)) continue;
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, transformFileSync(source, { ...options, filename: source }).code);
    written += 1;
  }
  removeStale(dist, wanted);
  return written;
}

/** A module that no longer has a source must not be importable any more. */
function removeStale(folder, wanted) {
  if (!existsSync(folder)) return;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) removeStale(path, wanted);
    else if (!wanted.has(path)) rmSync(path);
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const started = Date.now();
  console.log(`built ${build()} files in ${Date.now() - started} ms`);
}
