import { RULE_BOOK_VERSION, triageOutcome, type StepKind, type TriageContext } from '#care';
import { formatTagCode } from '#custody';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { StepResultRecord } from '../ports/step-store.js';
import { DONE_WORDS, LEFT_WORDS } from './care-words.js';
import { settledSteps } from './done-steps.js';
import { RECEIPT_STANDING, residualRisk, storageAdvice, type Advice } from './receipt-advice.js';
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
}

/** The paper that goes with what is handed back. Stored as it was given. */
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

/** Writes the receipt of a hand-back from what is on record. */
export function writeReceipt(handBackId: string, household: HouseholdRecord, handedAtMs: number, handed: readonly HandedItem[], context: TriageContext): Receipt {
  return {
    handBackId, householdCode: household.code, handedAt: new Date(handedAtMs).toISOString(), ruleBookVersion: RULE_BOOK_VERSION,
    items: handed.map((one) => receiptItem(one, context)), standing: RECEIPT_STANDING,
  };
}

function receiptItem({ item, standing, conditionNote }: HandedItem, moment: TriageContext): ReceiptItem {
  const { observed } = standing.assessment;
  const context = { ...moment, doneSteps: [...standing.done] };
  const outcome = triageOutcome(observed, context);
  const way = chooseOption(outcome, item.disposition);
  const settled = settledSteps(standing.done, observed.mould);
  return {
    itemId: item.id, tag: formatTagCode(item.tagCode), description: item.description, count: item.count, conditionNote,
    done: wordsDone(standing.results),
    notDone: wordsLeft(way.steps.map((care) => care.step).filter((step) => !settled.has(step)), standing.results),
    storageAdvice: storageAdvice(item, observed, context),
    never: outcome.never.map((statement) => statement.text),
    residualRisk: residualRisk(item, observed, context),
  };
}

/** Once each, in the order in which it was first done, over all rounds of work. */
function wordsDone(results: readonly StepResultRecord[]): string[] {
  return [...new Set(results.filter((result) => result.outcome === 'done').map((result) => DONE_WORDS[result.step]))];
}

function wordsLeft(left: readonly StepKind[], results: readonly StepResultRecord[]): string[] {
  const stopped = results.filter((result) => result.outcome === 'dye-moved').map((result) => result.step);
  const words = left.flatMap((step) => LEFT_WORDS[step] ?? []);
  return stopped.includes('rinse') ? ['It was not rinsed to the end, because its dye moved.', ...words] : words;
}
