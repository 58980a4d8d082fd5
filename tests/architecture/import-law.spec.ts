import { describe, expect, test } from '@jest/globals';
import { foldersIn, projectFiles, read, readJson } from './files.js';

interface Law {
  pure: { libraries: string[]; packages: string[] };
  mayImport: Record<string, string[]>;
  onlyThere: Record<string, string[]>;
}

const law = readJson<Law>('apps/ops/checks/import-law.json');
const parts = [...foldersIn('libs'), ...foldersIn('apps').map((name) => `apps/${name}`)];
const sources = projectFiles().filter((path) => /^(libs|apps)\/.*\.m?ts$/.test(path) && !path.includes('/generated/'));

describe('the import law', () => {
  test('speaks of every library and every app, and of nothing else', () => {
    expect(Object.keys(law.mayImport).sort()).toEqual([...parts].sort());
  });

  test('names only libraries that exist, and never an app as something to import', () => {
    const named = [...law.pure.libraries, ...Object.values(law.mayImport).flat()];
    expect(named.filter((name) => !foldersIn('libs').includes(name))).toEqual([]);
  });

  test('lets a pure library import pure libraries alone, and has no circle', () => {
    for (const name of law.pure.libraries) expect((law.mayImport[name] ?? []).filter((other) => !law.pure.libraries.includes(other))).toEqual([]);
    const below = (name: string, path: string[]): string[] => {
      if (path.includes(name)) throw new Error(`circle: ${[...path, name].join(' > ')}`);
      return (law.mayImport[name] ?? []).flatMap((next) => [next, ...below(next, [...path, name])]);
    };
    for (const name of Object.keys(law.mayImport)) expect(() => below(name, [])).not.toThrow();
  });

  test('is what the check reads', () => {
    expect(read('apps/ops/checks/dependency-cruiser.mjs')).toContain("new URL('./import-law.json', import.meta.url)");
    expect(readJson<{ scripts: Record<string, string> }>('package.json').scripts['check:imports']).toContain('apps/ops/checks/dependency-cruiser.mjs');
  });

  test('is what the sources do: no alias of a library that the law does not list', () => {
    const broken = sources.flatMap((path) => {
      const part = parts.find((name) => path.startsWith(name.startsWith('apps/') ? `${name}/` : `libs/${name}/`)) ?? '';
      const allowed = new Set(law.mayImport[part]);
      return [...read(path).matchAll(/(?:from|import)\s*\(?\s*'#([a-z]+)'/g)].filter((match) => !allowed.has(match[1] ?? '')).map((match) => `${path} imports #${match[1]}`);
    });
    expect(broken).toEqual([]);
  });
});

describe('the libraries', () => {
  test('each have an alias, an index and a page that says what they are for', () => {
    const aliases = readJson<{ imports: Record<string, { source: string }> }>('package.json').imports;
    for (const name of foldersIn('libs')) expect([name, aliases[`#${name}`]?.source]).toEqual([name, `./libs/${name}/src/index.ts`]);
    const files = new Set(projectFiles());
    const without = foldersIn('libs').filter((name) => !files.has(`libs/${name}/src/index.ts`) || !(files.has(`libs/${name}/README.md`) || files.has(`libs/${name}/src/README.md`)));
    expect(without).toEqual([]);
  });

  test('read the environment in platform alone', () => {
    const readers = sources.filter((path) => /process\.env\b|process\[['"]env/.test(read(path)));
    const allowed = /^(libs\/platform\/|libs\/testing\/|apps\/ops\/)/;
    expect(readers.filter((path) => !allowed.test(path))).toEqual([]);
  });
});
