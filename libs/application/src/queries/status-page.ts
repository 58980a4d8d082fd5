/** What a family sees of its things behind its link: how each stands and what it is asked. No name, no address, no place, no tag. */
import { LANGUAGES, MATERIAL_WORDS, type Language, type Message } from '#care';
import type { UseCaseCall } from '../call.js';
import { openWords } from '../commands/ask-owner.js';
import { familyMoment } from '../families/compose-message.js';
import { ifNoneWords, OVERDUE_WORDS, questionWords } from '../families/question-words.js';
import { statusWords } from '../families/status-words.js';
import type { OwnerAnswer } from '../ports/owner-question-store.js';
import { needsCode } from '../commands/record-owner-answer.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { StatusLinkRecord } from '../ports/status-link-store.js';
import type { Stores } from '../ports/work.js';

export interface AskedOnPage {
  id: string;
  itemNumber: number;
  itemKind: Message;
  asks: Message | string;
  means: (Message | string)[];
  answers: OwnerAnswer[];
  /** Answers that need the pick-up code. */
  withCode: OwnerAnswer[];
  ifNone: Message;
}

export interface AnsweredOnPage {
  itemNumber: number;
  asks: Message | string;
  answer: OwnerAnswer;
  late: boolean;
}

export interface ThingOnPage {
  id: string;
  number: number;
  kind: Message;
  count: number;
  status: Message;
  /** What the family said of it; only with the pick-up code. */
  description: string | null;
  gone: boolean;
}

export interface StatusPage {
  language: Language;
  /** What the clock on the family's wall shows. */
  asOf: string;
  hasCode: boolean;
  things: ThingOnPage[];
  asked: AskedOnPage[];
  answered: AnsweredOnPage[];
}

/** The most things that one page shows; more than any household has brought, and a bound for what a link can cost. Our own calibration. */
const THINGS_SHOWN = 1_000;
const GONE: readonly ItemRecord['stage'][] = ['released', 'handed-back', 'merged'];

/** The page of a link that opens; `language` null for the household's own. `known` is true where the pick-up code was given. */
export async function statusPage(stores: Stores, call: UseCaseCall, input: { link: StatusLinkRecord; language: Language | null; known: boolean }): Promise<StatusPage | null> {
  const { link, known } = input;
  const household = await stores.households.find(link.householdId);
  if (!household) return null;
  const language = input.language ?? LANGUAGES.find((spoken) => spoken === household.language) ?? 'en';
  const zone = await stores.imports.timeZone();
  const items = await itemsOf(stores, link);
  const numbers = new Map(items.map(({ id }, index) => [id, index + 1]));
  const asked: AskedOnPage[] = [];
  const answered: AnsweredOnPage[] = [];
  for (const record of await stores.ownerQuestions.ofHousehold(link.householdId)) {
    const { question, words } = await openWords(stores, record);
    const item = items.find(({ id }) => id === question.itemId);
    if (!item || question.state === 'withdrawn') continue;
    const said = questionWords(question, language, words);
    const itemNumber = numbers.get(item.id) ?? 0;
    const answer = question.answer ?? question.lateAnswer;
    const inTime = question.state === 'open' && call.env.nowMs < question.deadlineAtMs;
    if (answer !== null) answered.push({ itemNumber, asks: said.asks, answer, late: question.lateAnswer !== null });
    // One whose time is over still takes an answer: it is kept, and somebody reads it.
    else asked.push({ id: question.id, itemNumber, itemKind: kindOf(item), asks: said.asks, means: said.means, answers: question.answers, withCode: question.answers.filter((each) => needsCode(question, each)), ifNone: inTime ? ifNoneWords(question.ifNone, familyMoment(question.deadlineAtMs, zone, language)) : OVERDUE_WORDS });
  }
  const things = items.map((item, index) => ({ id: item.id, number: index + 1, kind: kindOf(item), count: item.count, status: statusWords(item), description: known ? item.description : null, gone: GONE.includes(item.stage) }));
  return { language, asOf: familyMoment(call.env.nowMs, zone, language), hasCode: link.hasCode, things, asked, answered };
}

const kindOf = (item: ItemRecord): Message => MATERIAL_WORDS[item.materialClass];

async function itemsOf(stores: Stores, link: StatusLinkRecord): Promise<ItemRecord[]> {
  const items = await stores.items.page(link.incidentId, { householdId: link.householdId }, THINGS_SHOWN, null);
  return items.filter(({ stage }) => stage !== 'merged');
}
