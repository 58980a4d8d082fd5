import { DEFAULT_CALIBRATION, deriveFacts, findRule, homeCare, say, type Assessment, type Book, type Facts, type Message, type Source, type Statement, type TriageContext, type TriageOutcome } from '#care';
import type { ItemRecord } from '../ports/item-store.js';

/** A sentence for a family with what it rests on; in English when it is written and stored. */
export interface Advice {
  text: string;
  source: Source;
}

/** Stands at the foot of every receipt. */
export const RECEIPT_STANDING = say(
  'First aid keeps a thing from getting worse; it does not restore it. Nothing is promised about how it will keep. For its value, for insurance and for anything to do with health ask those who are licensed for it; what the local authorities say about flooded things comes first.',
);

const own = (advice: Message, because: Message): Advice => ({ text: advice.text, source: { mark: 'own-calibration', cite: because.text } });

const UNNAMED: Source = { mark: 'own-calibration', cite: say('Our own words, after a rule of the book.').text };

/** The source of a rule that the sentence repeats in words for a family. */
const fromRule = (advice: Message, ruleId: string): Advice => ({ text: advice.text, source: findRule(ruleId)?.source ?? UNNAMED });

function factsOf(assessment: Assessment, book: Book, context: TriageContext): Facts {
  return deriveFacts(assessment, context, book.calibrate(DEFAULT_CALIBRATION));
}

/** A sentence of the rule book with the rule's own source; the rules of a network's choices stand in its book alone. */
function fromBook({ ruleId, text }: Statement, book: Book): Advice {
  const rule = book.rules.find(({ id }) => id === ruleId);
  return { text, source: rule?.source ?? UNNAMED };
}

/**
 * Storage rules that the receipt says in another place, in words for a family: wet things at the head of the storage advice,
 * contaminated water under what remains uncertain, which says it of everything that this rule speaks of.
 */
const SAID_ELSEWHERE: ReadonlySet<string> = new Set(['storage.still-wet', 'storage.contaminated']);

/** How to keep the thing at home: what the rule book says of its material, after what must happen first. */
export function storageAdvice(item: ItemRecord, assessment: Assessment, book: Book, context: TriageContext, outcome: TriageOutcome): Advice[] {
  if (item.stage === 'held-frozen') return [own(say('It is frozen. Keep it frozen until somebody can dry it, and thaw only what can be dried in one go.'), say('Our own words: freezing buys time and does nothing else (rules freezing.effect and freezing.thaw).'))];
  const kept = outcome.storage.filter(({ ruleId }) => !SAID_ELSEWHERE.has(ruleId)).map((statement) => fromBook(statement, book));
  if (factsOf(assessment, book, context).dry) return kept;
  return [
    fromRule(say('It is not known to be dry. Dry it at once, spread out in moving air, before you put it away: what stays damp grows mould.'), 'mould.clock'),
    fromRule(say('Use no hair dryer, oven or iron, and do not lay it in the sun.'), 'drying.no-heat'),
    ...kept,
  ];
}

/** What to do with it in the next weeks, and when to ask a conservator. */
export function homeAdvice(item: ItemRecord, assessment: Assessment, book: Book, context: TriageContext): { nextWeeks: Advice[]; askWhen: Advice[] } {
  const { family, dry } = factsOf(assessment, book, context);
  return homeCare({ family, dry, frozen: item.stage === 'held-frozen' });
}

/** What remains uncertain or unsafe about the thing, as far as it is on record. */
export function residualRisk(item: ItemRecord, assessment: Assessment, book: Book, context: TriageContext): Advice[] {
  const facts = factsOf(assessment, book, context);
  const risks: Advice[] = [];
  // What was clean when it came and was dried in time is not spoilt by the days since.
  if (assessment.water !== 'clean' || (!facts.dry && facts.water !== 'clean')) risks.push(fromRule(say('It lay in contaminated water. Rinsing and drying do not make it sterile: wash your hands after handling it, do not sleep under it, and keep it from small children, from food and from bedding until you have asked.'), 'consent.black-water-isolation'));
  if (facts.mould === 'active') risks.push(fromRule(say('Mould was found on it or must be expected. Keep it bagged and apart; people who are sensitive to mould should not handle it.'), 'mould.active.quarantine'));
  if (facts.mould === 'dry') risks.push(fromRule(say('It had mould. Dead mould still harms: handle it with gloves and a mask if any can be seen.'), 'mould.dry.remove'));
  if (facts.mould === 'unseen') risks.push(own(say('Nobody has looked it over for mould.'), say('Our own words: it was never assessed for mould.')));
  if (facts.family === 'textile' && facts.dye === 'bleeding') risks.push(fromRule(say('Its dye moves. Let no water touch it before a conservator has answered.'), 'textile.bleeding.refer-always'));
  if (facts.family === 'textile' && facts.dye === 'untested') risks.push(fromRule(say('Not every colour was tested: dye may move as soon as it gets wet.'), 'textile.colour-test.first'));
  if (facts.stopHazards.length > 0) risks.push(fromRule(say('Something about it can hurt people. Leave it closed and apart, and ask the competent authority.'), 'hazard.stop-and-isolate'));
  if (item.stage === 'held-frozen') risks.push(own(say('Freezing has neither dried it nor killed mould.'), say('Our own words: rule freezing.effect.')));
  if (risks.length === 0) risks.push(own(say('No particular risk is on record. That is no proof that there is none.'), say('Our own words: absence of a record is not absence of a risk.')));
  return risks;
}
