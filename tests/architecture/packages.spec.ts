import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { readJson, root } from './files.js';

interface Package {
  dependencies?: Record<string, string>;
  devDependencies?: Record<string, string>;
  optionalDependencies?: Record<string, string>;
  peerDependencies?: Record<string, string>;
  overrides?: Record<string, unknown>;
  allowScripts?: Record<string, boolean>;
  license?: string | { type?: string };
  licenses?: { type?: string }[];
}

interface Locked {
  version?: string;
  resolved?: string;
  dev?: boolean;
  devOptional?: boolean;
  link?: boolean;
  hasInstallScript?: boolean;
}

const own = readJson<Package>('package.json');
const lock = readJson<{ lockfileVersion: number; packages: Record<string, Locked> }>('package-lock.json');
const locked = Object.entries(lock.packages).filter(([path]) => path !== '');
const isInstalled = (path: string) => existsSync(join(root, path, 'package.json'));
const nameOf = (path: string) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);

describe('what the project depends on', () => {
  const all = Object.entries({ ...own.dependencies, ...own.devDependencies, ...own.optionalDependencies, ...own.peerDependencies });

  test('is named with one exact version: no range, no tag, no repository, no address, no file', () => {
    expect(all.length).toBeGreaterThan(30);
    expect(all.filter(([, version]) => !/^\d+\.\d+\.\d+(?:-[0-9A-Za-z.-]+)?$/.test(version))).toEqual([]);
  });

  test('is locked at just that version', () => {
    expect(all.filter(([name, version]) => lock.packages[`node_modules/${name}`]?.version !== version)).toEqual([]);
  });

  test('comes from the registry all the way down', () => {
    expect(locked.filter(([, entry]) => entry.link === true || /^(git|ssh|file|http:)/.test(entry.resolved ?? '') || !/^\d+\.\d+\.\d+/.test(entry.version ?? '')).map(([path]) => path)).toEqual([]);
  });
});

describe('scripts that packages run when they are installed', () => {
  test('are each allowed or refused by name, for all that is installed here', () => {
    const withScripts = [...new Set(locked.filter(([path, entry]) => entry.hasInstallScript && isInstalled(path)).map(([path]) => nameOf(path)))].sort();
    expect(withScripts.length).toBeGreaterThan(0);
    expect(withScripts.filter((name) => own.allowScripts?.[name] === undefined)).toEqual([]);
  });

  test('are not decided for packages that are gone', () => {
    const names = new Set(locked.map(([path]) => nameOf(path)));
    expect(Object.keys(own.allowScripts ?? {}).filter((name) => !names.has(name))).toEqual([]);
  });
});

/** Licences that ask for no more than a notice. CC-BY would be for data alone; nothing has it now. */
const ALLOWED = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', '0BSD', 'BlueOak-1.0.0', 'PostgreSQL', 'Python-2.0', 'CC0-1.0', 'Unlicense', 'MIT-0',
  // Of the typeface that printed sheets embed: free to use and to embed, not to be sold by itself.
  'OFL-1.1']);

/** Packages that state their licence in a file alone; read there by a person, for just this version. */
const STATED_IN_A_FILE: Record<string, string> = { 'png-js@2.0.0': 'MIT' };

/**
 * Weak copyleft that binds the package alone: a library of its own that is loaded at run time, installed from the registry unchanged,
 * and may be replaced by whoever runs the program (LGPL-3.0, section 4). Each is named by a person.
 */
const LOADED_UNCHANGED: Record<string, string> = { '@img/sharp-libvips-linux-x64': 'LGPL-3.0-or-later', '@img/sharp-libvips-linuxmusl-x64': 'LGPL-3.0-or-later', '@img/sharp-libvips-linux-arm64': 'LGPL-3.0-or-later', '@img/sharp-libvips-darwin-arm64': 'LGPL-3.0-or-later' };

/** An SPDX expression: any side of OR, every side of AND. */
function allowed(expression: string): boolean {
  const text = expression.trim().replace(/^\((.*)\)$/, '$1');
  if (/\bOR\b/.test(text)) return text.split(/\bOR\b/).some(allowed);
  if (/\bAND\b/.test(text)) return text.split(/\bAND\b/).every(allowed);
  return ALLOWED.has(text);
}

function licenceOf(path: string): string {
  const { license, licenses } = readJson<Package>(`${path}/package.json`);
  const text = typeof license === 'string' ? license : (license?.type ?? licenses?.map((entry) => entry.type).join(' OR '));
  return text ?? STATED_IN_A_FILE[`${nameOf(path)}@${readJson<{ version?: string }>(`${path}/package.json`).version ?? ''}`] ?? 'none stated';
}

describe('licences', () => {
  // `devOptional`: only behind a development tool, or an optional peer that none of our code imports (the ORM's command line).
  // What does not stand on this machine is of another platform and is not shipped with it.
  const production = locked.filter(([path, entry]) => !entry.dev && !entry.devOptional && isInstalled(path));

  test('of everything that runs in production are on the list', () => {
    expect(production.length).toBeGreaterThan(100);
    const others = production.filter(([path]) => !allowed(licenceOf(path)) && LOADED_UNCHANGED[nameOf(path)] !== licenceOf(path));
    expect(others.map(([path]) => `${nameOf(path)}: ${licenceOf(path)}`)).toEqual([]);
  });

  test('are read as SPDX expressions', () => {
    expect(allowed('(MIT OR GPL-3.0-only)')).toBe(true);
    expect(allowed('MIT AND GPL-3.0-only')).toBe(false);
    expect(allowed('GPL-3.0-only')).toBe(false);
    expect(allowed('none stated')).toBe(false);
  });

  test('of the project itself is Apache-2.0, with its text', () => {
    expect(own.license).toBe('Apache-2.0');
    expect(existsSync(join(root, 'LICENSE'))).toBe(true);
  });
});
