/** Every sentence that the program can say, gathered from the rule book, the calibration and the source. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { RELEASE_SUMMARIES, STANDING, type Conclusion, type Rule, type Source } from '#care';
import { TABLES } from '../../../libs/application/src/calibration/tables.js';
import { ALL_RULES } from '../../../libs/care/src/rule-book/all-rules.js';
import { ALL_CHOICES } from '../../../libs/care/src/rule-book/choices.js';

const root = join(import.meta.dirname, '../../..');

/** One sentence and where it stands. */
export interface Sentence {
  text: string;
  where: string;
  /** Written with values: an ICU pattern. */
  pattern: boolean;
}

const plain = (where: string, ...texts: (string | undefined)[]): Sentence[] => texts.flatMap((text) => (text === undefined ? [] : [{ text, where, pattern: false }]));

/** What a rule, or the change that a choice makes to one, says. */
export function sentencesOfRule(id: string, rule: Partial<Rule>): Sentence[] {
  return [...plain(id, rule.text, rule.choice, rule.alternative, rule.why, rule.whyEnded), ...(rule.source ? ofSource(id, rule.source) : []), ...(rule.concludes ?? []).flatMap((conclusion) => ofConclusion(id, conclusion))];
}

function ofConclusion(id: string, conclusion: Conclusion): Sentence[] {
  if (conclusion.kind === 'ppe') return plain(id, ...conclusion.items);
  return 'text' in conclusion ? plain(id, conclusion.text) : [];
}

/** Titles of publications stay as they are printed. */
function ofSource(where: string, source: Source): Sentence[] {
  return source.mark === 'published' ? [] : plain(where, source.cite);
}

/** The rule book in every release, with every choice that a network can switch, and what a release says of itself. */
export function sentencesOfTheRuleBook(): Sentence[] {
  const choices = ALL_CHOICES.flatMap(({ id, text, why, whyEnded, options }) => [
    ...plain(id, text, why, whyEnded),
    ...options.flatMap((option) => [...plain(id, option.text, option.why, option.whyEnded), ...ofSource(id, option.source), ...changesOf(option.rules)]),
  ]);
  return [...ALL_RULES.flatMap((rule) => sentencesOfRule(rule.id, rule)), ...choices, ...plain('releases', ...Object.values(RELEASE_SUMMARIES)), ...plain('STANDING', STANDING)];
}

function changesOf(rules: (typeof ALL_CHOICES)[number]['options'][number]['rules']): Sentence[] {
  return [...Object.entries(rules?.replace ?? {}).flatMap(([id, change]) => sentencesOfRule(id, change)), ...(rules?.add ?? []).flatMap((rule) => sentencesOfRule(rule.id, rule))];
}

/** Units that are signs, the same in every language; every other unit is words. */
const SIGNS: ReadonlySet<string> = new Set(['-', '%', '%/min', 'C', 'K', 'K/min', 'W', 'L/kWh', 'aw', 'h', 'kg/kg', 'm/s', 'min']);

/** What the entries of a calibration table say: why, and units in words. */
export function sentencesOfTable(library: string, table: Readonly<Record<string, { why: string; unit: string }>>): Sentence[] {
  return Object.entries(table).flatMap(([key, { why, unit }]) => plain(`${library}/${key}`, why, ...(SIGNS.has(unit) ? [] : [unit])));
}

/** The numbers of our own calibration, in every table that is shown to a network. */
export function sentencesOfTheCalibration(): Sentence[] {
  return Object.entries(TABLES).flatMap(([library, table]) => sentencesOfTable(library, table));
}

const SPEAKING = ['libs/care/src', 'libs/planning/src', 'libs/application/src', 'apps/api/src'];

/** The sentences of all calls `say('...')`. @throws Error for a call whose sentence is not written out in it */
export function sentencesInCode(): Sentence[] {
  return SPEAKING.flatMap((folder) => readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map((file) => join(folder, file)))
    .filter((file) => file.endsWith('.ts') && !file.endsWith('messages/message.ts'))
    .flatMap(sentencesOfFile);
}

function sentencesOfFile(file: string): Sentence[] {
  const source = readFileSync(join(root, file), 'utf8');
  if (!source.includes('say(')) return [];
  const found: Sentence[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && node.expression.getText() === 'say') found.push(sentenceOf(node, file));
    node.forEachChild(visit);
  };
  visit(ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true));
  return found;
}

function sentenceOf(call: ts.CallExpression, file: string): Sentence {
  const [text, values] = call.arguments;
  if (text === undefined || !ts.isStringLiteralLike(text)) throw new Error(`${file}: write the sentence out in ${call.getText()}`);
  return { text: text.text, where: file, pattern: values !== undefined };
}
