/** The receipt that a family takes home and signs: what went back, how it is, what was done and not done, what remains uncertain. */
import { render, say, type Language, type Message } from '#care';
import { receiptInLanguage, type HandBackPaper, type ReceiptItem } from '#application';
import { FlowDocument, flowTable, SMALL_MM, type PaperName } from './flow/index.js';
import { clockOf } from './paper-clock.js';
import { CHECK_WORDS, RECEIVER_WORDS } from './paper-words.js';
import { Sources } from './paper-sources.js';

export interface PaperStyle {
  language: Language;
  paper: PaperName;
}

const NOTHING_DONE = say('Nothing is on record.');
const NOTHING_LEFT = say('Nothing that was planned is left.');

/** Draws the receipt as PDF; the same hand-back in the same language has the same bytes. */
export function receiptPdf(given: HandBackPaper, { language, paper }: PaperStyle): Promise<Buffer> {
  const receipt = receiptInLanguage(given.receipt, language);
  const title = render(say('Receipt for things handed back'), language);
  const foot = render(say('{title}, household {code}', { title, code: receipt.householdCode }), language);
  const flow = new FlowDocument({ title, foot, language, createdAtMs: given.recordedAtMs, paper });
  const sources = new Sources(flow);
  flow.title(title);
  flow.facts(headOf(given, flow, language));
  const groups = groupsOf(receipt.items);
  groups.forEach((items, index) => group(flow, sources, items, groups.length === 1 ? null : `${index + 1}.`));
  reservations(flow, given);
  flow.notice(receipt.standing);
  signatures(flow, given);
  sources.list();
  flow.text(flow.spoken(say('Advice after the rule book {version}.', { version: receipt.ruleBookVersion })), { sizeMm: SMALL_MM, beforeMm: 1 });
  return flow.finish();
}

function headOf(given: HandBackPaper, { spoken }: FlowDocument, language: Language): [string, string][] {
  const clock = clockOf(given.timeZone, language);
  const pieces = given.receipt.items.reduce((sum, { count }) => sum + count, 0);
  const rows: [Message, string][] = [
    [say('Household'), given.receipt.householdCode],
    [say('When'), `${clock.moment(given.handedAtMs)} (${clock.zone})`],
    [say('Handed back by'), given.handedBy ?? spoken(say('the salvage of {incident}', { incident: given.incidentName }))],
    [say('Received by'), spoken(RECEIVER_WORDS[given.receiver])],
    [say('Checked'), spoken(CHECK_WORDS[given.identityCheck])],
    [say('Things'), spoken(say('{things, plural, one {# thing} other {# things}}, {pieces, plural, one {# piece} other {# pieces}}', { things: given.receipt.items.length, pieces }))],
  ];
  return rows.map(([name, value]) => [spoken(name), value]);
}

/** Things of which the same was done and left, and of which the same is uncertain, stand together: it is said once. */
function groupsOf(items: readonly ReceiptItem[]): ReceiptItem[][] {
  const groups = new Map<string, ReceiptItem[]>();
  for (const item of items) {
    const key = JSON.stringify([item.done, item.notDone, item.residualRisk]);
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()];
}

function group(flow: FlowDocument, sources: Sources, items: readonly ReceiptItem[], number: string | null): void {
  const [first] = items;
  if (!first) return;
  const { spoken } = flow;
  const columns = [{ head: spoken(say('Tag')), share: 39, weight: 'bold' as const }, { head: spoken(say('What it is')), share: 62 }, { head: spoken(say('How it goes back')), share: 73 }];
  const about = (item: ReceiptItem): string => (item.count > 1 ? `${item.description}, ${spoken(say('{count} pieces', { count: item.count }))}` : item.description);
  if (number !== null) flow.heading(spoken(say('{number} {things, plural, one {# thing} other {# things}}', { number, things: items.length })));
  flowTable(flow, columns, items.map((item) => [item.tag, about(item), item.conditionNote]));
  part(flow, say('What was done'), [first.done.length > 0 ? sentence(first.done.join(', ')) : spoken(NOTHING_DONE)]);
  part(flow, say('What was not or could not be done'), first.notDone.length > 0 ? first.notDone : [spoken(NOTHING_LEFT)]);
  part(flow, say('What remains uncertain'), first.residualRisk.map(({ text, source }) => `${text} ${sources.mark(source)}`));
}

function part(flow: FlowDocument, name: Message, texts: readonly string[]): void {
  flow.text(flow.spoken(name), { weight: 'bold', beforeMm: 3, keepMm: 6 });
  if (texts.length === 1) flow.text(texts[0] ?? '', { beforeMm: 0.4 });
  else flow.points(texts);
}

const sentence = (text: string): string => `${text.charAt(0).toLocaleUpperCase()}${text.slice(1)}.`;

function reservations(flow: FlowDocument, { reservations: said }: HandBackPaper): void {
  flow.text(flow.spoken(say('What the receiver has to say against it')), { weight: 'bold', beforeMm: 5, keepMm: 12 });
  if (said !== null) return flow.text(said, { beforeMm: 0.4 });
  flow.text(flow.spoken(say('Nothing was said. Write here what you see otherwise; you lose nothing by signing.')), { beforeMm: 0.4 });
  flow.fields(['']);
}

const SIGNED = { widthMm: 75, heightMm: 30 } as const;

function signatures(flow: FlowDocument, { signature, codeUsed }: HandBackPaper): void {
  const { spoken } = flow;
  flow.need(signature === null ? 26 : SIGNED.heightMm + 14);
  flow.space(4);
  if (signature !== null) {
    const [xMm, yMm] = [flow.leftMm, flow.yMm];
    flow.draw((pdf) => pdf.strokes(signature, { xMm, yMm, ...SIGNED }, { widthUnits: 1_000, heightUnits: 400 }, 0.5));
    flow.draw((pdf) => pdf.line(xMm, yMm + SIGNED.heightMm, xMm + SIGNED.widthMm, yMm + SIGNED.heightMm, 0.25));
    flow.yMm += SIGNED.heightMm;
    return flow.text(spoken(say('Signed on the screen by the receiver. The signature says that the things were received, nothing else.')), { sizeMm: SMALL_MM, beforeMm: 1 });
  }
  if (codeUsed) flow.text(spoken(say('Received with the one-time code given to the household. The code says that the things were received, nothing else.')), { sizeMm: SMALL_MM });
  else flow.text(spoken(say('Signing says that the things were received, nothing else.')), { sizeMm: SMALL_MM });
  flow.fields([spoken(say('Received')), spoken(say('Handed back'))]);
}
