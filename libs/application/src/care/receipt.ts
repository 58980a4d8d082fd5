import { say, sourceInLanguage, translate, translatorFor, type Book, type Language, type MaterialClass, type StepKind, type TriageContext } from '#care';
import { formatTagCode } from '#custody';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { StepResultRecord } from '../ports/step-store.js';
import { judge } from '../rule-book/books.js';
import { DONE_WORDS, LEFT_WORDS } from './care-words.js';
import { settledSteps } from './done-steps.js';
import { homeAdvice, RECEIPT_STANDING, residualRisk, storageAdvice, type Advice } from './receipt-advice.js';
import { chooseOption } from './route.js';
import type { Standing } from './standing.js';

/** What the paper says of one item. Tag and description, never a name. */
export interface ReceiptItem {
  itemId: string;
  tag: string;
  description: string;
  count: number;
  conditionNote: string;
  done: string[];
  notDone: string[];
  storageAdvice: Advice[];
  never: string[];
  residualRisk: Advice[];
  /** By which the care sheet is sorted; receipts of before it was kept have none of these three. */
  materialClass?: MaterialClass;
  nextWeeks?: Advice[];
  askWhen?: Advice[];
}

/** The paper that goes with what is handed back. Stored as it was given, in English; `receiptInLanguage` reads it out in another language. */
export interface Receipt {
  handBackId: string;
  /** The code on the family's own slip; the name stands with the household alone. */
  householdCode: string;
  handedAt: string;
  ruleBookVersion: string;
  items: ReceiptItem[];
  standing: string;
}

export interface HandedItem {
  item: ItemRecord;
  standing: Standing;
  conditionNote: string;
}

/** What the advice of a receipt rests on. */
export interface ReceiptGround {
  book: Book;
  context: TriageContext;
}

/** Writes the receipt of a hand-back from what is on record. */
export function writeReceipt(handBackId: string, household: HouseholdRecord, handedAtMs: number, handed: readonly HandedItem[], { book, context }: ReceiptGround): Receipt {
  return {
    handBackId, householdCode: household.code, handedAt: new Date(handedAtMs).toISOString(), ruleBookVersion: book.version,
    items: handed.map((one) => receiptItem(one, book, context)), standing: RECEIPT_STANDING.text,
  };
}

function receiptItem({ item, standing, conditionNote }: HandedItem, book: Book, moment: TriageContext): ReceiptItem {
  const { observed } = standing.assessment;
  const context = { ...moment, doneSteps: [...standing.done] };
  const outcome = judge(book, observed, context);
  const way = chooseOption(outcome, item.disposition);
  const settled = settledSteps(standing.done, observed.mould);
  return {
    itemId: item.id, tag: formatTagCode(item.tagCode), description: item.description, count: item.count, conditionNote,
    done: [...wordsDone(standing.results), ...wordsWetAgain(standing.results)],
    notDone: wordsLeft(way.steps.map((care) => care.step).filter((step) => !settled.has(step)), standing.results),
    storageAdvice: storageAdvice(item, observed, book, context, outcome),
    never: outcome.never.map((statement) => statement.text),
    residualRisk: residualRisk(item, observed, book, context),
    materialClass: item.materialClass, ...homeAdvice(item, observed, book, context),
  };
}

/** The receipt with our sentences in the language; descriptions and notes stay as somebody wrote them. */
export function receiptInLanguage(receipt: Receipt, language: Language): Receipt {
  return { ...receipt, items: receipt.items.map((item) => itemInLanguage(item, language)), standing: translate(receipt.standing, language) };
}

function itemInLanguage(item: ReceiptItem, language: Language): ReceiptItem {
  const spoken = translatorFor(language);
  const advice = (list: readonly Advice[]): Advice[] => list.map(({ text, source }) => ({ text: spoken(text), source: sourceInLanguage(source, language) }));
  return {
    ...item, done: item.done.map(spoken), notDone: item.notDone.map(spoken), never: item.never.map(spoken),
    storageAdvice: advice(item.storageAdvice), residualRisk: advice(item.residualRisk),
    ...(item.nextWeeks && { nextWeeks: advice(item.nextWeeks) }), ...(item.askWhen && { askWhen: advice(item.askWhen) }),
  };
}

/** Once each, in the order in which it was first done, over all rounds of work. */
function wordsDone(results: readonly StepResultRecord[]): string[] {
  return [...new Set(results.filter((result) => result.outcome === 'done').map((result) => DONE_WORDS[result.step].text))];
}

/** A family is told what happened to its thing while we had it. */
function wordsWetAgain(results: readonly StepResultRecord[]): string[] {
  return results.some(({ outcome }) => outcome === 'wetted-again') ? [say('It got wet again while it was with us, and the work on it began anew.').text] : [];
}

const RINSE_STOPPED = say('It was not rinsed to the end, because its dye moved.');

function wordsLeft(left: readonly StepKind[], results: readonly StepResultRecord[]): string[] {
  const stopped = results.filter((result) => result.outcome === 'dye-moved').map((result) => result.step);
  const words = left.flatMap((step) => LEFT_WORDS[step]?.text ?? []);
  return stopped.includes('rinse') ? [RINSE_STOPPED.text, ...words] : words;
}
