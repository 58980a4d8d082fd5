import { render, say, type Language, type Mark, type Message } from '#care';
import { oneLine } from './one-line.js';
import type { Advice } from './receipt-advice.js';
import { receiptInLanguage, type Receipt, type ReceiptItem } from './receipt.js';

/** How sure a sentence is, where it is less than published; a family may know as well as we do. */
const DOUBT: Readonly<Record<Exclude<Mark, 'published'>, Message>> = {
  'common-practice': say('(common practice)'), 'from-memory': say('(from memory, not checked)'), 'own-calibration': say('(our own judgement)'),
};

const NOTHING_DONE = say('nothing is on record');
const NOTHING_LEFT = say('nothing that was planned is left.');

/** The receipt as plain sentences of a language, to print or to read out. */
export function receiptText(stored: Receipt, language: Language): string {
  const receipt = receiptInLanguage(stored, language);
  const spoken = (message: Message): string => render(message, language);
  const handedAt = receipt.handedAt.slice(0, 16).replace('T', ' ');
  const head = [
    spoken(say('Receipt for things handed back')),
    spoken(say('Household {code}, {handedAt} UTC', { code: oneLine(receipt.householdCode), handedAt })),
    spoken(say('Hand-back {id}', { id: receipt.handBackId })),
  ];
  const items = receipt.items.flatMap((item, index) => ['', ...itemLines(item, index + 1, spoken)]);
  const foot = ['', receipt.standing, spoken(say('Advice after the rule book {version}.', { version: receipt.ruleBookVersion }))];
  return `${[...head, ...items, ...foot].join('\n')}\n`;
}

type Spoken = (message: Message) => string;

function itemLines(item: ReceiptItem, number: number, spoken: Spoken): string[] {
  const lines = [
    say('Condition: {note}', { note: oneLine(item.conditionNote) }),
    say('Done: {done}.', { done: item.done.length > 0 ? item.done.join('; ') : NOTHING_DONE }),
    say('Not done: {notDone}', { notDone: item.notDone.length > 0 ? item.notDone.join(' ') : NOTHING_LEFT }),
    ...item.storageAdvice.map((advice) => say('To keep it: {advice}', { advice: withDoubt(advice, spoken) })),
    ...item.residualRisk.map((advice) => say('Remains uncertain: {advice}', { advice: withDoubt(advice, spoken) })),
  ];
  const pieces = item.count > 1 ? `, ${spoken(say('{count} pieces', { count: item.count }))}` : '';
  return [`${number}. ${item.tag}: ${oneLine(item.description)}${pieces}`, ...[...lines.map(spoken), ...item.never].map((line) => `   ${line}`)];
}

function withDoubt({ text, source }: Advice, spoken: Spoken): string {
  return source.mark === 'published' ? text : `${text} ${spoken(DOUBT[source.mark])}`;
}
