/** Every sentence that the program can say, gathered from the rule book and from the source. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { RULE_BOOK, STANDING, type Conclusion, type Rule, type Source } from '#care';
import { CHOICES } from '../../../libs/care/src/rule-book/choices.js';

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
  return [...plain(id, rule.text, rule.choice, rule.alternative), ...(rule.source ? ofSource(id, rule.source) : []), ...(rule.concludes ?? []).flatMap((conclusion) => ofConclusion(id, conclusion))];
}

function ofConclusion(id: string, conclusion: Conclusion): Sentence[] {
  if (conclusion.kind === 'ppe') return plain(id, ...conclusion.items);
  return 'text' in conclusion ? plain(id, conclusion.text) : [];
}

/** Titles of publications stay as they are printed. */
function ofSource(where: string, source: Source): Sentence[] {
  return source.mark === 'published' ? [] : plain(where, source.cite);
}

/** The rule book with every choice that a network can switch. */
export function sentencesOfTheRuleBook(): Sentence[] {
  const choices = CHOICES.flatMap(({ id, text, options }) => [
    ...plain(id, text),
    ...options.flatMap((option) => [...plain(id, option.text), ...ofSource(id, option.source), ...changesOf(option.rules)]),
  ]);
  return [...RULE_BOOK.flatMap((rule) => sentencesOfRule(rule.id, rule)), ...choices, ...plain('STANDING', STANDING)];
}

function changesOf(rules: (typeof CHOICES)[number]['options'][number]['rules']): Sentence[] {
  return [...Object.entries(rules?.replace ?? {}).flatMap(([id, change]) => sentencesOfRule(id, change)), ...(rules?.add ?? []).flatMap((rule) => sentencesOfRule(rule.id, rule))];
}

const SPEAKING = ['libs/care/src', 'libs/application/src', 'apps/api/src'];

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
