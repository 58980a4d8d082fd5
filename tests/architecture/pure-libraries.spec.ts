import { describe, expect, test } from '@jest/globals';
import ts from 'typescript';
import { projectFiles, read, readJson } from './files.js';

const pure = readJson<{ pure: { libraries: string[]; packages: string[] } }>('apps/ops/checks/import-law.json').pure;
const files = projectFiles().filter((path) => pure.libraries.some((name) => path.startsWith(`libs/${name}/src/`)) && path.endsWith('.ts'));

/** Names that reach outside: clock, chance, machine, network, timers. */
const OUTSIDE = new Set(['process', 'Buffer', 'require', 'globalThis', 'window', 'self', 'global', 'console', 'fetch', 'performance', 'crypto', 'setTimeout', 'setInterval', 'setImmediate', 'queueMicrotask', 'localStorage', 'navigator', 'eval']);
const OUTSIDE_MEMBERS = new Set(['Date.now', 'Math.random', 'Intl.DateTimeFormat', 'Atomics.wait']);

/** What in a source reaches outside, by line. Works on the syntax tree: comments and texts do not count. */
function reaches(path: string, text: string): string[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const found: string[] = [];
  const note = (node: ts.Node, what: string) => found.push(`${path}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${what}`);
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node) && ts.isIdentifier(node.expression) && OUTSIDE_MEMBERS.has(`${node.expression.text}.${node.name.text}`)) note(node, `${node.expression.text}.${node.name.text}`);
    if (ts.isElementAccessExpression(node) && ts.isIdentifier(node.expression) && (node.expression.text === 'Date' || node.expression.text === 'Math')) note(node, `${node.expression.text}[...]`);
    if (ts.isNewExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === 'Date' && (node.arguments?.length ?? 0) === 0) note(node, 'new Date()');
    if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === 'Date') note(node, 'Date()');
    if (ts.isIdentifier(node) && OUTSIDE.has(node.text) && isReference(node)) note(node, node.text);
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) {
      const from = node.moduleSpecifier && ts.isStringLiteral(node.moduleSpecifier) ? node.moduleSpecifier.text : './';
      const ours = from.startsWith('.') || pure.libraries.some((name) => from === `#${name}`) || pure.packages.some((name) => from === name || from.startsWith(`${name}/`));
      if (!ours) note(node, `import of ${from}`);
    }
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) note(node, 'import()');
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** A name that is used, not one that is given: `x.process`, `{ process: 1 }` and a parameter of that name are our own. */
function isReference(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isPropertyAssignment(parent) || ts.isPropertySignature(parent) || ts.isMethodDeclaration(parent) || ts.isParameter(parent) || ts.isBindingElement(parent) || ts.isVariableDeclaration(parent)) return 'initializer' in parent && parent.initializer === node;
  return true;
}

describe('a pure library', () => {
  test('is looked at file by file', () => {
    for (const name of pure.libraries) expect(files.filter((path) => path.startsWith(`libs/${name}/`)).length).toBeGreaterThan(5);
  });

  test('knows no clock, no chance, no machine and no package but those of the law', () => {
    expect(files.flatMap((path) => reaches(path, read(path)))).toEqual([]);
  });
});

describe('the search itself', () => {
  const finds = (text: string) => reaches('x.ts', text).map((found) => found.replace('x.ts:1 ', ''));

  test('finds what reaches outside', () => {
    expect(finds('const t = Date.now();')).toEqual(['Date.now']);
    expect(finds('const t = new Date();')).toEqual(['new Date()']);
    expect(finds('const t = new Date;')).toEqual(['new Date()']);
    expect(finds('const t = Date();')).toEqual(['Date()']);
    expect(finds("const t = Math['random']();")).toEqual(['Math[...]']);
    expect(finds('const t = [1].map(Math.random);')).toEqual(['Math.random']);
    expect(finds('const t = process.env.X;')).toEqual(['process']);
    expect(finds("import { x } from 'node:fs';")).toEqual(['import of node:fs']);
    expect(finds("export * from '#platform';")).toEqual(['import of #platform']);
    expect(finds("const t = import('zod');")).toEqual(['import()']);
  });

  test('passes over comments, texts, members of that name and dates that are given', () => {
    expect(finds('/* Date.now */ const t = "Math.random"; // process')).toEqual([]);
    expect(finds('const t = new Date(0); const u = rule.process; const v = { process: 1 };')).toEqual([]);
  });
});
