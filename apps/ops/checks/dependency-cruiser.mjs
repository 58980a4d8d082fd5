// The rules of dependency-cruiser, derived from import-law.json: the drawing of the architecture is the check.
import { readFileSync } from 'node:fs';

const law = JSON.parse(readFileSync(new URL('./import-law.json', import.meta.url), 'utf8'));
const folderOf = (name) => (name.startsWith('apps/') ? name : `libs/${name}`);
const all = Object.keys(law.mayImport);

/** Each part sees only the parts that the law lists for it. */
const neighbours = Object.entries(law.mayImport).map(([name, allowed]) => ({
  name: `law-${name.replace('/', '-')}`,
  comment: `${name} may import only: ${allowed.join(', ') || 'nothing of ours'}`,
  severity: 'error',
  from: { path: `^${folderOf(name)}/` },
  to: { path: '^(libs|apps)/', pathNot: [name, ...allowed, ...(name === 'apps/ops' ? ['apps/api', 'apps/worker'] : []), ...(name === 'testing' ? ['apps/api'] : [])].map((part) => `^${folderOf(part)}/`) },
}));

/** Libraries with a second index, for what most importers do without: `#testing/salvage`. */
const FACES = { testing: 'index|salvage' };

/** Nobody reaches past a library's index. */
const noDeepImports = all
  .filter((name) => !name.startsWith('apps/'))
  .map((name) => ({
    name: `index-only-${name}`,
    comment: `import ${name} by its index, as #${name}`,
    severity: 'error',
    from: { path: '^(libs|apps|tests)/', pathNot: `^(libs/${name}/|tests/(unit|reference|architecture)/)` },
    to: { path: `^libs/${name}/src/`, pathNot: `^libs/${name}/src/(${FACES[name] ?? 'index'})\\.ts$` },
  }));

const pureFolders = `^libs/(${law.pure.libraries.join('|')})/`;
const pure = [
  { name: 'pure-no-node', comment: 'a pure library runs in a browser too', severity: 'error', from: { path: pureFolders }, to: { dependencyTypes: ['core'] } },
  { name: 'pure-packages', comment: `a pure library uses only: ${law.pure.packages.join(', ')}`, severity: 'error', from: { path: pureFolders }, to: { path: 'node_modules', pathNot: law.pure.packages.map((name) => `node_modules/${name}`) } },
];

const onlyThere = Object.entries(law.onlyThere).map(([packages, folders]) => ({
  name: `only-there-${packages.replaceAll(/[^a-z]+/g, '-')}`,
  comment: `${packages} stays inside ${folders.join(', ')}`,
  severity: 'error',
  from: { path: '^(libs|apps)/', pathNot: folders.map((folder) => `^${folder}/`) },
  to: { path: `node_modules/(${packages})(/|$)`.replace('@nestjs/)(/|$)', '@nestjs/)') },
}));

const siblings = [
  { name: 'features-do-not-know-each-other', severity: 'error', from: { path: '^apps/api/src/features/([^/]+)/' }, to: { path: '^apps/api/src/features/', pathNot: '^apps/api/src/features/$1/' } },
  { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } } },
];

export default {
  forbidden: [...neighbours, ...noDeepImports, ...pure, ...onlyThere, ...siblings],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)(dist|generated)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['source', 'import', 'node', 'default', 'types'], extensions: ['.ts', '.js', '.mjs', '.json'] },
  },
};
