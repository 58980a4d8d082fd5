/** What people read comes from the catalogues: no sentence is written out where it would reach them in English only. */
import { describe, expect, test } from '@jest/globals';
import ts from 'typescript';
import { projectFiles, read } from './files.js';

/** Where rows of files, plans and answers are put into words. */
const SPEAKING = [
  /^libs\/application\/src\/intake\/import\/.*\.ts$/,
  /^libs\/application\/src\/planning\/.*\.ts$/,
  /^libs\/planning\/src\/(explain|diagnose|binding-resources|blocker-words)\.ts$/,
  /^libs\/(application|planning)\/src\/.*-words\.ts$/,
  /^apps\/api\/src\/.*\.presenter\.ts$/,
];
/** Words that a file may hold and that are understood; nobody is told them. */
const UNDERSTOOD = 'libs/application/src/intake/import/vocabularies.ts';
const files = projectFiles().filter((path) => path !== UNDERSTOOD && SPEAKING.some((place) => place.test(path)));

/** Three words in a row are a sentence, or the beginning of one; codes, names of members and formats are shorter. */
const WORDS_IN_A_ROW = /\p{L}+[,;:]? \p{L}+[,;:]? \p{L}+/u;

/** Who reads what stands in these: whoever mends the program, or writes a client of it (problem documents are English). */
const FOR_DEVELOPERS = new Set(['Error', 'RangeError', 'TypeError', 'Problem', 'RegExp']);

/** Sentences that are written out and go to people without a catalogue, by line. */
function literals(path: string, text: string): string[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (isSpokenFor(node) || isFault(node) || ts.isTypeNode(node)) return;
    const said = wordsOf(node);
    if (said !== null && WORDS_IN_A_ROW.test(said)) found.push(`${path}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${said}`);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** The text of a literal; of a template with a digit for what is put in. */
function wordsOf(node: ts.Node): string | null {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return null;
  return [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('0');
}

/** The reasons of our own numbers (`own`) are looked for in the Spanish catalogue of the calibration. */
const SPOKEN_FOR = new Set(['say', 'own']);
const isSpokenFor = (node: ts.Node): boolean => ts.isCallExpression(node) && ts.isIdentifier(node.expression) && SPOKEN_FOR.has(node.expression.text);
const isFault = (node: ts.Node): boolean => ts.isNewExpression(node) && ts.isIdentifier(node.expression) && FOR_DEVELOPERS.has(node.expression.text);

describe('what people read', () => {
  test('is looked for in every place that puts files, plans and answers into words', () => {
    for (const place of SPEAKING) expect(files.filter((path) => place.test(path)).length).toBeGreaterThan(0);
    expect(files).toEqual(expect.arrayContaining(['libs/application/src/intake/import/read-row.ts', 'libs/planning/src/explain.ts', 'libs/application/src/planning/plan-summary.ts', 'apps/api/src/features/plans/plan.presenter.ts']));
  });

  test('is nowhere written out in one language: each sentence stands in `say`', () => {
    expect(files.flatMap((path) => literals(path, read(path)))).toEqual([]);
  });

  test('a plan run is never asked for with a reason that is written out in one language', () => {
    const commands = projectFiles().filter((path) => /^libs\/application\/src\/.*\.ts$/.test(path));
    expect(commands.flatMap((path) => writtenReasons(path, read(path)))).toEqual([]);
  });
});

/** Calls of `requestPlan` whose reason is a text of ours. */
function writtenReasons(path: string, text: string): string[] {
  if (!text.includes('requestPlan(')) return [];
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const reason = ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === 'requestPlan' ? node.arguments[3] : undefined;
    if (reason !== undefined && wordsOf(reason) !== null) found.push(`${path} ${reason.getText()}`);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true));
  return found;
}

describe('the search itself', () => {
  const finds = (text: string) => literals('x.ts', text).length;

  test.each([
    "remarks.refuse('tag', 'tag_missing', 'A thing without a tag is lost.');", 'const text = `no free station for "${what}"`;', "return { text: 'Write the code here.' };", 'const advice = `Wait ${hours} hours, then look again.`;',
    "say('fine', { why: 'it is' }) + 'and this is not';",
  ])('finds the sentence in %s', (text) => expect(finds(text)).toBe(1));

  test.each([
    "remarks.refuse('tag', 'tag_missing', say('A thing without a tag is lost.'));", "throw new RangeError('A period must be whole.');", "throw new Problem('not_found', 'No item with this id is visible.');", "type Kind = 'one of the kinds';",
    "const key = 'drying-area';", 'const at = `${date} ${time}`;', "import { say } from '#care';", '// A comment may say what it likes.',
  ])('lets %s be', (text) => expect(finds(text)).toBe(0));

  test('finds a reason that is written out, and lets messages and the words of people be', () => {
    const reasons = (text: string) => writtenReasons('x.ts', text).length;
    expect(reasons("await requestPlan(stores, call, id, 'a shift changed');")).toBe(1);
    expect(reasons('await requestPlan(stores, call, id, `freezer ${code} added`);')).toBe(1);
    expect(reasons("await requestPlan(stores, call, id, PLAN_REASONS.shift); await requestPlan(stores, call, id, input.reason, 'asked');")).toBe(0);
  });
});
