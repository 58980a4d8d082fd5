/** What a family does with its things in the next weeks, by material: to do, not to do, when to ask a conservator. */
import { MATERIAL_WORDS, render, say, type Message } from '#care';
import { receiptInLanguage, type HandBackPaper, type ReceiptItem } from '#application';
import { FlowDocument, flowTable, SMALL_MM } from './flow/index.js';
import { clockOf } from './paper-clock.js';
import { Sources } from './paper-sources.js';
import type { PaperStyle } from './receipt-paper.js';

type Advice = ReceiptItem['storageAdvice'];

/** Draws the sheet as PDF; the same hand-back in the same language has the same bytes. */
export function careSheetPdf(given: HandBackPaper, { language, paper }: PaperStyle): Promise<Buffer> {
  const receipt = receiptInLanguage(given.receipt, language);
  const title = render(say('Caring for what came back'), language);
  const flow = new FlowDocument({ title, foot: render(say('{title}, household {code}', { title, code: receipt.householdCode }), language), language, createdAtMs: given.recordedAtMs, paper });
  const sources = new Sources(flow);
  flow.title(title);
  flow.text(flow.spoken(say('Household {code}, handed back on {day}.', { code: receipt.householdCode, day: clockOf(given.timeZone, language).day(given.handedAtMs) })));
  for (const items of groupsOf(receipt.items)) group(flow, sources, items);
  flow.notice(receipt.standing);
  sources.list();
  flow.text(flow.spoken(say('Advice after the rule book {version}.', { version: receipt.ruleBookVersion })), { sizeMm: SMALL_MM, beforeMm: 1 });
  return flow.finish();
}

/** Things of one material for which the sheet says the same. */
function groupsOf(items: readonly ReceiptItem[]): ReceiptItem[][] {
  const groups = new Map<string, ReceiptItem[]>();
  for (const item of items) {
    const key = JSON.stringify([item.materialClass, item.storageAdvice, item.never, item.nextWeeks, item.askWhen]);
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()].sort((a, b) => (a[0]?.materialClass ?? '').localeCompare(b[0]?.materialClass ?? '', 'en'));
}

function group(flow: FlowDocument, sources: Sources, items: readonly ReceiptItem[]): void {
  const [first] = items;
  if (!first) return;
  const { spoken } = flow;
  flow.heading(capital(spoken(first.materialClass === undefined ? say('things') : MATERIAL_WORDS[first.materialClass])));
  flowTable(flow, [{ head: spoken(say('Tag')), share: 39, weight: 'bold' }, { head: spoken(say('What it is')), share: 135 }], items.map((item) => [item.tag, item.description]));
  const cited = (advice: Advice): string[] => advice.map(({ text, source }) => `${text} ${sources.mark(source)}`);
  part(flow, say('In the next weeks'), cited(first.nextWeeks ?? []));
  part(flow, say('To keep it'), cited(first.storageAdvice));
  part(flow, say('What not to do'), first.never);
  part(flow, say('When to ask a conservator'), cited(first.askWhen ?? []));
}

function part(flow: FlowDocument, name: Message, texts: readonly string[]): void {
  if (texts.length === 0) return;
  flow.text(flow.spoken(name), { weight: 'bold', beforeMm: 3, keepMm: 6 });
  flow.points(texts);
}

const capital = (text: string): string => `${text.charAt(0).toLocaleUpperCase()}${text.slice(1)}`;
