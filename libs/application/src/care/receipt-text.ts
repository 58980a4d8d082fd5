import type { Mark } from '#care';
import type { Advice } from './receipt-advice.js';
import type { Receipt, ReceiptItem } from './receipt.js';

/** How sure a sentence is, where it is less than published; a family may know as well as we do. */
const DOUBT: Readonly<Record<Mark, string>> = { published: '', 'common-practice': ' (common practice)', 'from-memory': ' (from memory, not checked)', 'own-calibration': ' (our own judgement)' };

/** The receipt as plain sentences, to print or to read out. */
export function receiptText(receipt: Receipt): string {
  const head = [`Receipt for things handed back`, `Household ${receipt.householdCode}, ${receipt.handedAt.slice(0, 16).replace('T', ' ')} UTC`, `Hand-back ${receipt.handBackId}`];
  const items = receipt.items.flatMap((item, index) => ['', ...itemLines(item, index + 1)]);
  return `${[...head, ...items, '', receipt.standing, `Advice after the rule book ${receipt.ruleBookVersion}.`].join('\n')}\n`;
}

function itemLines(item: ReceiptItem, number: number): string[] {
  const lot = item.count > 1 ? `, ${item.count} pieces` : '';
  return [
    `${number}. ${item.tag}: ${oneLine(item.description)}${lot}`,
    `   Condition: ${oneLine(item.conditionNote)}`,
    `   Done: ${item.done.length > 0 ? item.done.join('; ') : 'nothing is on record'}.`,
    `   Not done: ${item.notDone.length > 0 ? item.notDone.join(' ') : 'nothing that was planned is left.'}`,
    ...item.storageAdvice.map((advice) => `   To keep it: ${spoken(advice)}`),
    ...item.residualRisk.map((advice) => `   Remains uncertain: ${spoken(advice)}`),
    ...item.never.map((text) => `   ${text}`),
  ];
}

function spoken({ text, source }: Advice): string {
  return `${text}${DOUBT[source.mark]}`;
}

/** A note typed over several lines must not look like lines of ours. */
function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}
